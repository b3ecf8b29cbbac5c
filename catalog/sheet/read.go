package sheet

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Problem is something wrong with, or worth knowing of, one cell of a table.
type Problem struct {
	Row     int    // as a spreadsheet counts, the head being 1; 0: the whole file
	Column  string // name of the column, "" for the whole row
	Message string
	Hint    string
}

// String gives "row 7, price: message; hint".
func (p Problem) String() string {
	s := p.Message
	if p.Hint != "" {
		s += "; " + p.Hint
	}
	switch {
	case p.Row > 0 && p.Column != "":
		return fmt.Sprintf("row %d, %s: %s", p.Row, p.Column, s)
	case p.Row > 0:
		return fmt.Sprintf("row %d: %s", p.Row, s)
	}
	return s
}

// MostBytes is the largest file that is read.
const MostBytes = 16 << 20

// MostRows is the largest number of rows.
const MostRows = 20_000

// table is a CSV file taken apart: its rows keyed by column.
type table struct {
	comma bool // decimals are written with a comma
	head  []string
	rows  []row
}

type row struct {
	number int
	cells  map[string]string
}

// Reading says how a file is to be read. The zero value finds out by itself.
type Reading struct {
	Delimiter    rune // 0: whichever fits the head
	DecimalComma bool // decimals are written with a comma; taken for granted with ; and tabs
}

// read takes a file apart.
func read(data []byte, w What, how Reading) (*table, []Problem) {
	src, problem := decode(data)
	if problem != nil {
		return nil, []Problem{*problem}
	}
	delimiter := how.Delimiter
	if delimiter == 0 {
		delimiter = guess(src, w)
	}
	r := csv.NewReader(strings.NewReader(src))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = delimiter, true, -1
	head, err := r.Read()
	if err != nil {
		return nil, []Problem{{Message: "the file is empty", Hint: "the first row has to name the columns: " + strings.Join(Columns(w), ", ")}}
	}
	t := &table{comma: how.DecimalComma || delimiter != ','}
	problems := t.readHead(head, w)
	extra := 0 // lines that belong to cells of several lines
	for {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			problems = append(problems, Problem{Message: err.Error(), Hint: "check the quotes there"})
			break
		}
		if len(t.rows) == MostRows {
			problems = append(problems, Problem{Message: fmt.Sprintf("more than %d rows", MostRows), Hint: "split the file"})
			break
		}
		line, _ := r.FieldPos(0)
		number := line - extra
		for _, c := range cells {
			extra += strings.Count(c, "\n")
		}
		problems = append(problems, t.addRow(number, cells)...)
	}
	return t, problems
}

// decode makes UTF-8 text with plain line ends of a file.
func decode(data []byte) (string, *Problem) {
	if len(data) > MostBytes {
		return "", &Problem{Message: fmt.Sprintf("the file is larger than %d MiB", MostBytes>>20), Hint: "split it"}
	}
	for mark, order := range map[string]binary.ByteOrder{"\xff\xfe": binary.LittleEndian, "\xfe\xff": binary.BigEndian} {
		if rest, ok := bytes.CutPrefix(data, []byte(mark)); ok {
			units := make([]uint16, len(rest)/2)
			for i := range units {
				units[i] = order.Uint16(rest[2*i:])
			}
			data = []byte(string(utf16.Decode(units)))
		}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if i := bytes.IndexByte(data, 0); i >= 0 {
		return "", &Problem{Row: bytes.Count(data[:i], []byte("\n")) + 1, Message: "a NUL byte: this is not a CSV file", Hint: "save the table as CSV, UTF-8"}
	}
	src := strings.ReplaceAll(string(data), "\r\n", "\n")
	return strings.ReplaceAll(src, "\r", "\n"), nil
}

// guess is the delimiter with which the head names the most columns.
func guess(src string, w What) rune {
	head, _, _ := strings.Cut(strings.TrimLeft(src, "\n"), "\n")
	best, most := ',', -1
	for _, d := range []rune{',', ';', '\t'} {
		n := 0
		for _, name := range strings.Split(head, string(d)) {
			if _, ok := w.column(plainName(name)); ok {
				n++
			}
		}
		if n > most {
			best, most = d, n
		}
	}
	return best
}

func plainName(name string) string {
	return strings.ToLower(strings.Trim(strings.TrimSpace(name), `"`))
}

func (t *table) readHead(head []string, w What) (problems []Problem) {
	for i, name := range head {
		plain := plainName(name)
		_, known := w.column(plain)
		switch {
		case plain == "" && !slices.ContainsFunc(head[i:], func(s string) bool { return plainName(s) != "" }):
			plain = "" // empty columns at the end
		case slices.Contains(t.head, plain):
			problems = append(problems, Problem{Row: 1, Column: plain, Message: "this column is there twice", Hint: "leave one out"})
			plain = ""
		case !known:
			problems = append(problems, Problem{Row: 1, Message: fmt.Sprintf("unknown column %q", name), Hint: meant(plain, Columns(w))})
			plain = ""
		}
		t.head = append(t.head, plain)
	}
	for _, c := range columnsOf[w] {
		if c.form == id && !slices.Contains(t.head, c.name) {
			problems = append(problems, Problem{Row: 1, Message: fmt.Sprintf("there is no column %q", c.name), Hint: "the columns may be: " + strings.Join(Columns(w), ", ")})
		}
	}
	return problems
}

func (t *table) addRow(number int, cells []string) (problems []Problem) {
	r := row{number, map[string]string{}}
	for i, c := range cells {
		if !utf8.ValidString(c) {
			name := ""
			if i < len(t.head) {
				name = t.head[i]
			}
			problems = append(problems, Problem{Row: number, Column: name, Message: fmt.Sprintf("%q is not UTF-8", c), Hint: "save the table as CSV, UTF-8"})
			continue
		}
		c = strings.TrimSpace(c)
		switch {
		case i < len(t.head) && t.head[i] != "":
			if c = unguard(c); c != "" {
				r.cells[t.head[i]] = c
			}
		case c != "" && i >= len(t.head):
			problems = append(problems, Problem{Row: number, Message: fmt.Sprintf("%q stands beyond the last column", c), Hint: "put text with the delimiter in it in quotes"})
		}
	}
	if len(r.cells) > 0 {
		t.rows = append(t.rows, r)
	}
	return problems
}
