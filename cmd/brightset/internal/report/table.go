package report

import "strings"

// Align is where the text of a column stands.
type Align int

const (
	Left  Align = iota
	Right       // never wrapped: for numbers
)

// Table is a plain text table, at most Columns wide. Left columns give way by
// wrapping their words; right ones never lose a digit. It has two columns or
// more.
type Table struct {
	heads  []string
	aligns []Align
	rows   [][]string // nil: a rule; one cell: a span
}

// NewTable starts a table. A head that begins with ">" makes a right column.
func NewTable(heads ...string) *Table {
	t := &Table{}
	for _, h := range heads {
		a := Left
		if strings.HasPrefix(h, ">") {
			a, h = Right, h[1:]
		}
		t.heads, t.aligns = append(t.heads, h), append(t.aligns, a)
	}
	return t
}

// Row adds a row. Missing cells at the end are empty. A cell may hold several
// lines, separated by line feeds.
func (t *Table) Row(cells ...string) {
	row := make([]string, len(t.heads))
	copy(row, cells)
	t.rows = append(t.rows, row)
}

// Span adds a paragraph that runs across all columns, indented.
func (t *Table) Span(indent int, text string) {
	lead := strings.Repeat(" ", indent)
	t.rows = append(t.rows, []string{Paragraph(lead, lead+"  ", text)})
}

// Rule adds a line across the table.
func (t *Table) Rule() { t.rows = append(t.rows, nil) }

// String lays the table out. A table without rows is the empty string.
func (t *Table) String() string {
	if len(t.rows) == 0 {
		return ""
	}
	widths := t.widths()
	total := 2 * (len(widths) - 1)
	for _, w := range widths {
		total += w
	}
	rule := strings.Repeat("-", total) + "\n"
	var b strings.Builder
	t.write(&b, t.heads, widths)
	b.WriteString(rule)
	for _, row := range t.rows {
		switch len(row) {
		case 0:
			b.WriteString(rule)
		case 1:
			b.WriteString(row[0])
		default:
			t.write(&b, row, widths)
		}
	}
	return b.String()
}

// widths gives every column what its widest line needs, then takes columns away
// from the widest left ones until the table fits.
func (t *Table) widths() []int {
	widths := make([]int, len(t.heads))
	total := 2 * (len(widths) - 1)
	for i := range widths {
		widths[i] = Width(t.heads[i])
		for _, row := range t.rows {
			if len(row) < 2 {
				continue
			}
			for _, line := range strings.Split(row[i], "\n") {
				widths[i] = max(widths[i], Width(line))
			}
		}
		total += widths[i]
	}
	for ; total > Columns; total-- {
		widest := -1
		for i, a := range t.aligns {
			if a == Left && widths[i] > 4 && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	return widths
}

func (t *Table) write(b *strings.Builder, row []string, widths []int) {
	cells := make([][]string, len(row))
	height := 1
	for i, cell := range row {
		for _, line := range strings.Split(cell, "\n") {
			if t.aligns[i] == Right {
				cells[i] = append(cells[i], clean(line))
			} else {
				cells[i] = append(cells[i], Wrap(line, widths[i])...)
			}
		}
		height = max(height, len(cells[i]))
	}
	for l := range height {
		var line strings.Builder
		for i, w := range widths {
			text := ""
			if l < len(cells[i]) {
				text = cells[i][l]
			}
			pad := strings.Repeat(" ", max(0, w-Width(text)))
			if t.aligns[i] == Right {
				text = pad + text
			} else {
				text += pad
			}
			if i > 0 {
				line.WriteString("  ")
			}
			line.WriteString(text)
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
}
