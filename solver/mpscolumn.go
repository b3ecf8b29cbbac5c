package solver

import (
	"bufio"
	"fmt"
	"slices"
	"strconv"
)

// mpsEntry is a coefficient of a column.
type mpsEntry struct {
	row   string
	value int64
}

// writeGroups writes the columns of all groups.
func (m *mps) writeGroups(b *bufio.Writer) {
	places := m.samePlaces()
	near := m.nearPlaces()
	var entries []mpsEntry
	for g := range m.p.Groups {
		for c := range m.p.Groups[g].Columns {
			entries = m.entries(entries[:0], g, c)
			for _, at := range near[g] {
				entries = m.nearNames[at.rule].entries(entries, &m.p.WithinTolerance[at.rule], at.index, c)
			}
			for _, at := range places[g] {
				if label := m.p.AllEqual[at.rule].Labels[at.index][c]; label >= 0 {
					entries = append(entries, mpsEntry{sameRow(at.rule, g, label), 1})
				}
			}
			writeColumn(b, g, c, entries)
		}
	}
}

// entries are the coefficients of a column in the total, in its group's row, in the
// problem's rows, and in those of its links.
func (m *mps) entries(list []mpsEntry, g, c int) []mpsEntry {
	k := &m.p.Groups[g].Columns[c]
	add := func(row string, v int64) {
		if i := slices.IndexFunc(list, func(e mpsEntry) bool { return e.row == row }); i >= 0 {
			list[i].value += v
		} else {
			list = append(list, mpsEntry{row, v})
		}
	}
	add("total", k.Cost)
	add(m.groupName[g], 1)
	for _, t := range k.Terms {
		if name := m.rowName[t.Row]; name != "" {
			add(name, t.Coef)
		}
	}
	for _, h := range k.Needs {
		add(m.linkName[g][h], 1)
	}
	if m.only {
		for _, h := range m.p.closure(k.Needs) {
			if m.onlyName[h] != "" {
				add(m.onlyName[h], -1)
			}
		}
	}
	for _, l := range k.Loads {
		if name := m.loadName[l.Switch]; name != "" {
			add(name, -l.Amount)
		}
	}
	return list
}

func writeColumn(b *bufio.Writer, g, c int, entries []mpsEntry) {
	written := false
	for _, e := range entries {
		if e.value == 0 {
			continue
		}
		b.WriteByte(' ')
		writeName(b, g, c)
		b.WriteByte(' ')
		b.WriteString(e.row)
		b.WriteByte(' ')
		b.Write(strconv.AppendInt(b.AvailableBuffer(), e.value, 10))
		b.WriteByte('\n')
		written = true
	}
	if !written {
		fmt.Fprintf(b, " x%d_%d total 0\n", g, c)
	}
}

// writeName writes the name of a group's column.
func writeName(b *bufio.Writer, g, c int) {
	b.WriteByte('x')
	b.Write(strconv.AppendInt(b.AvailableBuffer(), int64(g), 10))
	b.WriteByte('_')
	b.Write(strconv.AppendInt(b.AvailableBuffer(), int64(c), 10))
}

// inRule says that a rule concerns a group, and at which of its places.
type inRule struct{ rule, index int }

func (m *mps) samePlaces() [][]inRule {
	out := make([][]inRule, len(m.p.Groups))
	for i := range m.p.AllEqual {
		for a, g := range m.p.AllEqual[i].Groups {
			out[g] = append(out[g], inRule{i, a})
		}
	}
	return out
}

func (m *mps) nearPlaces() [][]inRule {
	out := make([][]inRule, len(m.p.Groups))
	for i := range m.p.WithinTolerance {
		for a, g := range m.p.WithinTolerance[i].Groups {
			out[g] = append(out[g], inRule{i, a})
		}
	}
	return out
}
