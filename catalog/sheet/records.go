package sheet

import "strings"

// record is one row of a CSV file.
type record struct {
	row   int // as a spreadsheet counts, from 1; empty rows count
	cells []string
}

// reader takes CSV apart: RFC 4180, and besides any line ends, spaces around a
// quoted cell, and quotes in the middle of a cell that doesn't begin with one,
// such as 50" wide. Line ends within cells become \n.
type reader struct {
	src       string
	at        int
	delimiter byte
	row       int
	cell      int      // of the row, from 0
	cells     []string // of the row; the next row is read into the same memory
	wide      bool     // something stands beyond the last column there may be
	problems  []Problem
}

// more says whether there is another row.
func (r *reader) more() bool { return r.at < len(r.src) }

// next reads one row; ok is false where there is a problem with it. Its cells hold
// until the next one is read.
func (r *reader) next() (rec record, ok bool) {
	before := len(r.problems)
	cells := r.record()
	return record{r.row, cells}, len(r.problems) == before
}

// record reads up to the end of a row. Empty cells beyond MostColumns are what
// spreadsheets like to leave, and are dropped.
func (r *reader) record() []string {
	r.row++
	r.cells, r.wide = r.cells[:0], false
	for r.cell = 0; ; r.cell++ {
		cell := r.readCell()
		if r.cell < MostColumns {
			r.cells = append(r.cells, cell)
		} else if strings.TrimSpace(cell) != "" {
			r.wide = true
		}
		if r.at >= len(r.src) {
			return r.cells
		}
		if r.src[r.at] == r.delimiter {
			r.at++
			continue
		}
		r.lineEnd()
		return r.cells
	}
}

// lineEnd steps over CR, LF or CR-LF.
func (r *reader) lineEnd() {
	if strings.HasPrefix(r.src[r.at:], "\r\n") {
		r.at++
	}
	r.at++
}

// readCell reads up to the delimiter or the end of the row, and stays before it.
func (r *reader) readCell() string {
	start := r.at
	r.spaces()
	if r.at < len(r.src) && r.src[r.at] == '"' {
		return r.quotedCell()
	}
	r.at = start
	r.toEnd()
	return r.src[start:r.at]
}

func (r *reader) spaces() {
	for r.at < len(r.src) && r.src[r.at] == ' ' {
		r.at++
	}
}

// toEnd goes to the next delimiter or line end.
func (r *reader) toEnd() {
	for r.at < len(r.src) && !r.ended() {
		r.at++
	}
}

func (r *reader) ended() bool {
	c := r.src[r.at]
	return c == r.delimiter || c == '\n' || c == '\r'
}

// quotedCell reads a cell that begins with a quote.
func (r *reader) quotedCell() string {
	var b strings.Builder
	start := r.at
	r.at++
	for {
		i := strings.IndexByte(r.src[r.at:], '"')
		if i < 0 {
			r.wrong("the quote that opens this cell is never closed", `put a " at the end of the cell, and write quotes `+
				`inside it twice`)
			r.at = start
			if end := strings.IndexAny(r.src[r.at:], "\r\n"); end >= 0 {
				r.at += end // the rows below are looked at as if it were closed
			} else {
				r.at = len(r.src)
			}
			return ""
		}
		b.WriteString(r.src[r.at : r.at+i])
		r.at += i + 1
		if r.at < len(r.src) && r.src[r.at] == '"' {
			b.WriteByte('"')
			r.at++
			continue
		}
		r.spaces()
		if r.at < len(r.src) && !r.ended() {
			r.wrong("there is a quote in the middle of this quoted cell", `write quotes inside a cell twice: "50"" wide"`)
			r.recover()
			return ""
		}
		return strings.ReplaceAll(strings.ReplaceAll(b.String(), "\r\n", "\n"), "\r", "\n")
	}
}

// recover goes to the end of a cell with a stray quote: behind a quote that may
// end the cell in this line, else to the next delimiter.
func (r *reader) recover() {
	line := r.src[r.at:]
	if i := strings.IndexAny(line, "\r\n"); i >= 0 {
		line = line[:i]
	}
	if i := strings.Index(line, `"`+string(r.delimiter)); i >= 0 {
		r.at += i + 1
		return
	}
	if strings.HasSuffix(line, `"`) {
		r.at += len(line)
		return
	}
	r.toEnd()
}

func (r *reader) wrong(message, hint string) {
	r.problems = append(r.problems, Problem{Row: r.row, Cell: cellName(r.row, r.cell), Message: message, Hint: hint})
}

// blank says whether there is nothing in a row.
func (r record) blank() bool {
	for _, c := range r.cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}
