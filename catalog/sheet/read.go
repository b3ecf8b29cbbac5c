package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Limits of a table, far beyond any real one: a small file could fill the memory
// without them.
const (
	MostRows     = 20_000 // below the head, without empty ones
	MostColumns  = 200
	MostProblems = 1_000 // then no more rows are looked at
)

// table is a CSV file taken apart: its rows keyed by column.
type table struct {
	comma   bool // decimals are written with a comma
	headRow int
	head    []string // names of the columns; "" for one that is not read
	unnamed []bool   // columns the head gives no name
	rows    []row
}

type row struct {
	number int
	cells  map[string]string // without those that are empty or wrong
	wrong  map[string]bool   // cells that are reported
}

// Reading says how a file is to be read. The zero value finds out by itself.
type Reading struct {
	Delimiter    rune // 0: whichever fits the head
	Off          bool // it lists what came off the object: see cameOff
	DecimalComma bool // decimals are written with a comma; taken for granted with ; and tabs
}

// read takes a file apart. The table is nil where there is no use going on.
func read(data []byte, w What, how Reading) (*table, []Problem) {
	src, problem := decode(data)
	if problem != nil {
		return nil, []Problem{*problem}
	}
	delimiter := byte(how.Delimiter)
	if delimiter == 0 {
		if delimiter, problem = guess(src, w); problem != nil {
			return nil, []Problem{*problem}
		}
	}
	_, src, _ = told(src)
	r := &reader{src: src, delimiter: delimiter}
	t := &table{comma: how.DecimalComma || delimiter != ','}
	var problems []Problem
	for r.more() {
		rec, ok := r.next()
		problems, r.problems = append(problems, r.problems...), nil
		switch {
		case r.wide:
			return nil, []Problem{{Row: rec.row, Message: fmt.Sprintf("there are more than %d columns", MostColumns),
				Hint: "the columns may be: " + strings.Join(Columns(w), ", ")}}
		case len(problems) > MostProblems:
			return nil, append([]Problem{{Message: fmt.Sprintf("there are more than %d problems", MostProblems),
				Hint: "check that this is the right file; the rest of it was not looked at"}}, problems...)
		case !ok || rec.blank():
		case t.headRow == 0:
			t.headRow = rec.row
			problems = append(problems, t.readHead(rec.cells, w)...)
		case len(t.rows) == MostRows:
			return t, append(problems, Problem{Message: fmt.Sprintf("there are more than %d rows", MostRows),
				Hint: "split the file"})
		default:
			problems = append(problems, t.addRow(rec, w)...)
		}
	}
	if t.headRow == 0 {
		if len(problems) == 0 {
			problems = []Problem{{Message: "the file is empty", Hint: "the first row has to name the columns: " +
				strings.Join(Columns(w), ", ")}}
		}
		return nil, problems
	}
	return t, problems
}

func plainName(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// readHead reads the names of the columns. Several empty ones at the end are
// what spreadsheets like to leave; nothing may stand below them.
func (t *table) readHead(cells []string, w What) (problems []Problem) {
	wrong := func(i int, message, hint string) {
		problems = append(problems, Problem{Row: t.headRow, Cell: cellName(t.headRow, i), Message: message, Hint: hint})
	}
	unknown := false
	for i, cell := range cells {
		name := plainName(cell)
		_, known := w.column(name)
		switch {
		case name == "":
		case slices.Contains(t.head, name):
			wrong(i, fmt.Sprintf("the column %q is there twice", name), "leave one out")
			name = ""
		case !known:
			unknown = true
			wrong(i, "unknown column "+shown(strings.TrimSpace(cell)), meant(name, Columns(w)))
			name = ""
		}
		t.head = append(t.head, name)
		t.unnamed = append(t.unnamed, plainName(cell) == "")
	}
	for _, c := range columnsOf[w] {
		if w.needs(c) && !slices.Contains(t.head, c.name) && !unknown {
			problems = append(problems, Problem{Row: t.headRow, Message: fmt.Sprintf("there is no column %q", c.name),
				Hint: "the columns may be: " + strings.Join(Columns(w), ", ")})
		}
	}
	return problems
}

// addRow reads the cells of one row.
func (t *table) addRow(rec record, w What) (problems []Problem) {
	r := row{rec.row, map[string]string{}, map[string]bool{}}
	shifted := false // cells may not be below their names
	wrong := func(i int, message, hint string) {
		p := Problem{Row: rec.row, Cell: cellName(rec.row, i), Message: message, Hint: hint}
		if i < len(t.head) {
			p.Column = t.head[i]
			r.wrong[p.Column] = true
		}
		shifted = shifted || p.Column == ""
		problems = append(problems, p)
	}
	for i, cell := range rec.cells {
		bare := strings.TrimSpace(cell)
		switch {
		case bare == "":
		case strings.Contains(cell, "\x00"):
			wrong(i, "there is a NUL byte in "+shown(cell), asUTF8)
		case !utf8.ValidString(cell):
			wrong(i, shown(cell)+" is not UTF-8", asUTF8)
		case i >= len(t.head):
			wrong(i, shown(bare)+" stands beyond the last column", "put text with the delimiter in it in quotes")
		case t.unnamed[i]:
			wrong(i, shown(bare)+" stands in a column without a name", "give the column a name, or empty it")
		case t.head[i] == "": // an unknown column, which is reported
		case strings.HasPrefix(bare, "="):
			wrong(i, shown(bare)+" is a formula", "write what it comes to, or an apostrophe before it if it is meant as text")
		case isFormulaError(bare):
			wrong(i, shown(bare)+" is what a spreadsheet shows for a formula gone wrong", "write the value")
		default:
			c, _ := w.column(t.head[i])
			r.cells[c.name] = unguard(cell, c.form)
		}
	}
	if n := t.width(); len(rec.cells) < n {
		problems = append(problems, Problem{Row: rec.row, Message: fmt.Sprintf("this row ends after %d cells of %d",
			len(rec.cells), n),
			Hint: "cells that are empty need their delimiters too; a line end within a cell needs quotes around the cell"})
		shifted = true
	}
	if !shifted {
		t.rows = append(t.rows, r)
	}
	return problems
}

// width is the number of columns up to the last one with a name.
func (t *table) width() int {
	n := len(t.head)
	for n > 0 && t.unnamed[n-1] {
		n--
	}
	return n
}

// locate gives the problems that name a row and a column the cell's name too,
// and puts them in the order of the table.
func (t *table) locate(problems []Problem) {
	for i := range problems {
		p := &problems[i]
		at := slices.Index(t.head, p.Column)
		if p.Row > 0 && p.Column != "" && p.Cell == "" && at >= 0 {
			p.Cell = cellName(p.Row, at)
		}
	}
	slices.SortStableFunc(problems, func(a, b Problem) int {
		return cmp.Or(a.Row-b.Row, slices.Index(t.head, a.Column)-slices.Index(t.head, b.Column))
	})
}

// doubles reports rows of one name and takes them out; TOML would refuse them with
// less to go by.
func (t *table) doubles() (problems []Problem) {
	first := map[string]int{}
	t.rows = slices.DeleteFunc(t.rows, func(r row) bool {
		if r.cells["id"] == "" {
			return false
		}
		name := r.cells["piece"] + "\x00" + r.cells["id"]
		if at, ok := first[name]; ok {
			problems = append(problems, Problem{Row: r.number, Column: "id", Message: fmt.Sprintf("%s is in row %d already",
				shown(r.cells["id"]), at), Hint: "give one of the two another name"})
			return true
		}
		first[name] = r.number
		return false
	})
	return problems
}
