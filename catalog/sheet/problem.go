package sheet

import "fmt"

// Problem is something wrong with, or worth knowing of, one cell of a table.
type Problem struct {
	Row     int    // as a spreadsheet counts, from 1; 0: the whole file
	Column  string // name of the column, "" for the whole row
	Cell    string // as a spreadsheet calls it, such as "C7"; "" if it isn't known
	Message string
	Hint    string // what to write or do instead; may be empty
}

// String gives "row 7, price (C7): message; hint".
func (p Problem) String() string {
	s := p.Message
	if p.Hint != "" {
		s += "; " + p.Hint
	}
	switch {
	case p.Row > 0 && p.Column != "" && p.Cell != "":
		return fmt.Sprintf("row %d, %s (%s): %s", p.Row, p.Column, p.Cell, s)
	case p.Row > 0 && p.Column+p.Cell != "":
		return fmt.Sprintf("row %d, %s%s: %s", p.Row, p.Column, p.Cell, s)
	case p.Row > 0:
		return fmt.Sprintf("row %d: %s", p.Row, s)
	}
	return s
}

// Problems are what stands in the way of an import; nothing was written.
type Problems []Problem

func (p Problems) Error() string { return fmt.Sprintf("%d problems in the table", len(p)) }

// cellName is what a spreadsheet calls the cell in the given row, from 1, and
// column, from 0: 6 and 2 are "C6".
func cellName(row, column int) string {
	letters := ""
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return fmt.Sprintf("%s%d", letters, row)
}

// shown is a cell as a message quotes it.
func shown(cell string) string {
	const most = 40
	if r := []rune(cell); len(r) > most {
		cell = string(r[:most]) + "..."
	}
	return fmt.Sprintf("%q", cell)
}
