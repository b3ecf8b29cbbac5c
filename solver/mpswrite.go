package solver

import (
	"bufio"
	"fmt"
)

func (m *mps) write(b *bufio.Writer) {
	fmt.Fprintln(b, "NAME brightset FREE\nROWS\n N total")
	for _, r := range m.rows {
		fmt.Fprintf(b, " %c %s\n", r.sense, r.name)
	}
	fmt.Fprintln(b, "COLUMNS\n M1 'MARKER' 'INTORG'")
	m.writeGroups(b)
	m.writeColumns(b, false)
	fmt.Fprintln(b, " M2 'MARKER' 'INTEND'")
	m.writeColumns(b, true)
	fmt.Fprintln(b, "RHS")
	for _, r := range m.rows {
		if r.right != 0 {
			fmt.Fprintf(b, " RHS %s %d\n", r.name, r.right)
		}
	}
	fmt.Fprintln(b, "BOUNDS")
	for g := range m.p.Groups {
		for c := range m.p.Groups[g].Columns {
			b.WriteString(" UP BND ")
			writeName(b, g, c)
			b.WriteString(" 1\n")
		}
	}
	for _, c := range m.columns {
		if !m.real[c] {
			fmt.Fprintf(b, " UP BND %s 1\n", c)
		}
	}
	fmt.Fprintln(b, "ENDATA")
}

func (m *mps) writeColumns(b *bufio.Writer, real bool) {
	for _, c := range m.columns {
		if m.real[c] != real {
			continue
		}
		written := false
		for _, row := range m.byColumn[c].rows {
			if v := m.byColumn[c].value[row]; v != 0 {
				fmt.Fprintf(b, " %s %s %d\n", c, row, v)
				written = true
			}
		}
		if !written {
			fmt.Fprintf(b, " %s total 0\n", c)
		}
	}
}
