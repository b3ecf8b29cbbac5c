package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// place is the row and the column a line of the TOML came from.
type place struct {
	row    int
	column string
}

// writer makes TOML of rows and remembers where each line came from.
type writer struct {
	b      strings.Builder
	places []place // of line i+1
}

func (w *writer) line(at place, format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	w.b.WriteString(s + "\n")
	w.places = append(w.places, at)
}

// toTOML writes the rows of a table as the tables of a file that a job includes.
func toTOML(t *table, w What, from string) (*writer, []Problem) {
	out := &writer{}
	out.line(place{}, "# Made of %s by brightset import; the job includes it.", oneLine(from))
	var problems []Problem
	for _, r := range t.rows {
		out.line(place{r.number, ""}, "")
		switch w {
		case Pieces, Leads:
			name, ok := r.name("id", &problems)
			if !ok {
				continue
			}
			out.line(place{r.number, "id"}, "[piece.%s]", key(name))
			if w == Leads && r.cells["chance"] == "" {
				problems = append(problems, Problem{Row: r.number, Column: "chance", Message: "a lead has a chance of coming", Hint: "write a number from 0 to 1, such as 0.5"})
			}
		default:
			piece, ok := r.name("piece", &problems)
			name, also := r.name("id", &problems)
			if !ok || !also {
				continue
			}
			kind := strings.TrimSuffix(string(w), "s")
			out.line(place{r.number, "id"}, "[piece.%s.%s.%s]", key(piece), kind, key(name))
		}
		for _, c := range columnsOf[w] {
			if v := r.cells[c.name]; v != "" && c.form != id {
				out.line(place{r.number, c.name}, "%s = %s", c.name, value(v, c.form, t.comma))
			}
		}
	}
	return out, problems
}

// name is the id in a cell.
func (r row) name(column string, problems *[]Problem) (string, bool) {
	v := r.cells[column]
	if v == "" {
		*problems = append(*problems, Problem{Row: r.number, Column: column, Message: "this is empty", Hint: "every row needs a name of its own here"})
	}
	return v, v != ""
}

var (
	decimalComma = regexp.MustCompile(`^([-+]?\d+),(\d+)$`)
	tomlNumber   = regexp.MustCompile(`^[-+]?(0|[1-9]\d*)(\.\d+)?$`)
	tomlDate     = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)
)

// value writes a cell as TOML. What is not of its form is written as text, so
// that loading it says what is wrong.
func value(v string, f form, comma bool) string {
	switch f {
	case list:
		var items []string
		for _, s := range strings.Split(v, "|") {
			items = append(items, quoted(strings.TrimSpace(s)))
		}
		return "[" + strings.Join(items, ", ") + "]"
	case flag:
		if low := strings.ToLower(v); low == "true" || low == "false" {
			return low
		}
	case date:
		if tomlDate.MatchString(v) {
			return v
		}
	case number, grade, money:
		if comma {
			v = decimalComma.ReplaceAllString(v, "$1.$2")
		}
		if f != money && tomlNumber.MatchString(v) {
			return v
		}
	}
	return quoted(v)
}

// quoted writes a TOML basic string.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

var bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)

func key(s string) string {
	if bareKey.MatchString(s) {
		return s
	}
	return quoted(s)
}

func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x20 || r == 0x7f {
			return ' '
		}
		return r
	}, s)
}

// doubles reports rows of one name; TOML would refuse them with less to go by.
func doubles(t *table, w What) (problems []Problem) {
	first := map[string]int{}
	for _, r := range t.rows {
		name := r.cells["piece"] + "\x00" + r.cells["id"]
		if at, ok := first[name]; ok && r.cells["id"] != "" {
			problems = append(problems, Problem{Row: r.number, Column: "id", Message: fmt.Sprintf("%q is in row %d already", r.cells["id"], at), Hint: "give one of the two another name"})
			continue
		}
		first[name] = r.number
	}
	return problems
}

// drop leaves out the rows that have a problem already, so that each is told once.
func (t *table) drop(problems []Problem) *table {
	bad := map[int]bool{}
	for _, p := range problems {
		bad[p.Row] = true
	}
	out := *t
	out.rows = slices.DeleteFunc(slices.Clone(t.rows), func(r row) bool { return bad[r.number] })
	return &out
}
