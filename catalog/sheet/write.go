package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"brightset/catalog"
)

// place is the cell a line of the TOML came from.
type place struct {
	row    int
	column string
	cell   string // what stands in it
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

// mark begins the first line of every file that import writes: only such a
// file may be replaced.
const mark = "# Made by brightset import of "

// toTOML writes the rows of a table as the tables of a file that a job includes.
func toTOML(t *table, w What, from string) (*writer, []Problem) {
	out := &writer{}
	out.line(place{}, "%s%s; the job includes it.", mark, oneLine(from))
	if w == Prices {
		return out, pricesToTOML(t, out)
	}
	var problems []Problem
	names := newNames(t, w)
	for _, r := range t.rows {
		problems = append(problems, r.missing(t, w)...)
		if owner := columnsOf[w][0].name; r.cells[owner] == "" {
			continue // the piece has no name, which is reported
		}
		out.line(place{}, "")
		if w == Pieces || w == Leads {
			out.line(place{row: r.number, column: "id"}, "[piece.%s]", key(r.cells["id"]))
		} else {
			kind := strings.TrimSuffix(string(w), "s")
			out.line(place{row: r.number, column: names.where}, "[piece.%s.%s.%s]", key(r.cells["piece"]), kind,
				key(names.of(r)))
		}
		for _, c := range columnsOf[w] {
			v := r.cells[c.name]
			if r.wrong["owner"] && slices.Contains([]string{"price", "value", "bundle"}, c.name) {
				continue // what may be said of them depends on the owner
			}
			if p := t.commaProblem(r, c, v); p != nil {
				problems = append(problems, *p)
			} else if v != "" && c.form != id {
				out.line(place{r.number, c.name, v}, "%s = %s", c.name, value(v, c.form, t.comma))
			}
		}
	}
	return out, problems
}

// missing reports the cells of a row that may not be empty, and a lead that is
// none. A column that isn't there has been reported once.
func (r row) missing(t *table, w What) (problems []Problem) {
	for _, c := range columnsOf[w] {
		if w.needs(c) && r.cells[c.name] == "" && !r.wrong[c.name] && slices.Contains(t.head, c.name) {
			problems = append(problems, Problem{Row: r.number, Column: c.name, Message: "this is empty",
				Hint: emptyHints[c.name]})
		}
	}
	if w == Leads && slices.Contains([]string{"1", "1.0", "1,0", "1.00", "1,00"}, r.cells["chance"]) {
		problems = append(problems, Problem{Row: r.number, Column: "chance", Message: "what is certain to come is no lead",
			Hint: "write a chance below 1, or import it with --what pieces"})
	}
	return problems
}

// commaProblem reports a decimal comma in a table that has none elsewhere. Of
// money the catalog says so.
func (t *table) commaProblem(r row, c column, v string) *Problem {
	if t.comma || c.form != number && c.form != grade || !decimalComma.MatchString(v) {
		return nil
	}
	return &Problem{Row: r.number, Column: c.name, Message: shown(v) + " has a decimal comma",
		Hint: "write " + strings.Replace(v, ",", ".", 1) + "; if all are so, add --decimal-comma"}
}

// emptyHints say what to write in cells that may not be empty.
var emptyHints = map[string]string{
	"id":     "every row needs a name of its own here",
	"piece":  "write the id of a piece of the job",
	"fits":   "write the slots or parts it is made for, parted by |",
	"kind":   `write "original", "old-stock" or "reproduction"`,
	"metal":  `write "steel" or another of the metal table, or "unknown"`,
	"chance": "write the chance that it comes, from 0 to 1, such as 0.5",
	"defect": `write "blisters" or another of the defect table`,
	"plater": "write the id of one of the platers",
	"cost":   "write what he asks, such as 240.00",
	"level":  "write the level of his work that it is for",
	"part":   "write the part of the slots, or the id of one piece",
	"price":  "write what he asks for one, such as 9.50",
}

var (
	decimalComma = regexp.MustCompile(`^([-+]?\d+),(\d+)$`)
	thousands    = regexp.MustCompile(`,\d{3}$`) // may be, so it stays for the catalog to refuse
	oneDecimal   = regexp.MustCompile(`^\d+\.\d$`)
	tomlNumber   = regexp.MustCompile(`^[-+]?(0|[1-9]\d{0,15})(\.\d{1,15})?$`)
)

// value writes a cell as TOML. What is not of its form is written as text, so
// that loading it says what is wrong.
func value(v string, f form, comma bool) string {
	switch f {
	case list:
		var items []string
		for _, s := range strings.Split(v, "|") {
			items = append(items, catalog.TOMLText(strings.TrimSpace(s)))
		}
		return "[" + strings.Join(items, ", ") + "]"
	case flag:
		if low := strings.ToLower(v); low == "true" || low == "false" {
			return low
		}
	case date:
		if _, err := time.Parse(time.DateOnly, v); err == nil {
			return v
		}
	case number, grade, money:
		if comma && !(f == money && thousands.MatchString(v)) {
			v = decimalComma.ReplaceAllString(v, "$1.$2")
		}
		if f == money && oneDecimal.MatchString(v) {
			v += "0" // spreadsheets drop the last one
		}
		if f != money && tomlNumber.MatchString(v) {
			return v
		}
	}
	return catalog.TOMLText(v)
}

var bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)

func key(s string) string {
	if bareKey.MatchString(s) {
		return s
	}
	return catalog.TOMLText(s)
}

func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x20 || r == 0x7f {
			return ' '
		}
		return r
	}, s)
}
