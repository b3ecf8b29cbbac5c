package solver

import (
	"bufio"
	"fmt"
	"io"
	"sort"
)

// WriteMPS writes the problem in free MPS form, so that any integer-programming
// solver can judge an answer. Columns are x<group>_<column>, switches y<switch>,
// top-ups of minimums t<switch>, and s<rule>_<label> says which label a same
// rule has settled on. Links are written per group and switch, near rules as
// rows over the columns that exclude each other.
func (p *Problem) WriteMPS(w io.Writer) error {
	m := &mps{p: p, byColumn: map[string]*mpsColumn{}}
	m.collect()
	b := bufio.NewWriter(w)
	m.write(b)
	return b.Flush()
}

type mps struct {
	p        *Problem
	rows     []mpsRow
	columns  []string // in order
	byColumn map[string]*mpsColumn
	real     map[string]bool
}

type mpsRow struct {
	name  string
	sense byte // E, L or G
	right int64
}

// mpsColumn has one coefficient per row, in the order they came up.
type mpsColumn struct {
	rows  []string
	value map[string]int64
}

func (m *mps) row(name string, sense byte, right int64) string {
	m.rows = append(m.rows, mpsRow{name, sense, right})
	return name
}

func (m *mps) column(name string) {
	if _, ok := m.byColumn[name]; !ok {
		m.columns = append(m.columns, name)
		m.byColumn[name] = &mpsColumn{value: map[string]int64{}}
	}
}

func (m *mps) put(column, row string, v int64) {
	c := m.byColumn[column]
	if _, ok := c.value[row]; !ok {
		c.rows = append(c.rows, row)
	}
	c.value[row] += v
}

func x(g, c int) string { return fmt.Sprintf("x%d_%d", g, c) }

// rowBinds says whether a limit can matter at all.
func (r *Row) binds() bool {
	return (r.Sense == AtMost && r.Limit < Limit) || (r.Sense == AtLeast && r.Limit > -Limit)
}

func (m *mps) collect() {
	p := m.p
	m.real = map[string]bool{}
	for r := range p.Rows {
		if p.Rows[r].binds() {
			m.row(fmt.Sprintf("r%d", r), "LG"[p.Rows[r].Sense], p.Rows[r].Limit)
		}
	}
	for g := range p.Groups {
		m.row(fmt.Sprintf("g%d", g), 'E', 1)
		for c := range p.Groups[g].Columns {
			k := &p.Groups[g].Columns[c]
			m.column(x(g, c))
			m.put(x(g, c), "total", k.Cost)
			m.put(x(g, c), fmt.Sprintf("g%d", g), 1)
			m.terms(x(g, c), k.Terms)
		}
	}
	m.switches()
	m.links()
	for i := range p.Near {
		m.near(i)
	}
	for i := range p.Same {
		m.same(i)
	}
}

func (m *mps) terms(column string, terms []Term) {
	for _, t := range terms {
		if m.p.Rows[t.Row].binds() {
			m.put(column, fmt.Sprintf("r%d", t.Row), t.Coef)
		}
	}
}

func (m *mps) switches() {
	for h := range m.p.Switches {
		s := &m.p.Switches[h]
		y := fmt.Sprintf("y%d", h)
		m.column(y)
		m.charge(y, s, s.Fixed)
		m.terms(y, s.Terms)
		for _, n := range s.Needs {
			name := m.row(fmt.Sprintf("n%d_%d", h, n), 'L', 0)
			m.put(y, name, 1)
			m.column(fmt.Sprintf("y%d", n))
			m.put(fmt.Sprintf("y%d", n), name, -1)
		}
		if s.Minimum > 0 {
			t := fmt.Sprintf("t%d", h)
			m.column(t)
			m.real[t] = true
			m.charge(t, s, 1)
			name := m.row(fmt.Sprintf("m%d", h), 'L', 0)
			m.put(y, name, s.Minimum)
			m.put(t, name, -1)
		}
	}
}

// charge puts a charge in the total and in rows of charges.
func (m *mps) charge(column string, s *Switch, v int64) {
	if !m.p.Uncharged && s.Account == 0 {
		m.put(column, "total", v)
	}
	for r := range m.p.Rows {
		if m.p.Rows[r].Charges && m.p.Rows[r].Account == s.Account && m.p.Rows[r].binds() {
			m.put(column, fmt.Sprintf("r%d", r), v)
		}
	}
}

func (m *mps) links() {
	for g := range m.p.Groups {
		seen := map[int]bool{}
		for c := range m.p.Groups[g].Columns {
			k := &m.p.Groups[g].Columns[c]
			for _, h := range k.Needs {
				name := fmt.Sprintf("l%d_%d", g, h)
				if !seen[h] {
					seen[h] = true
					m.row(name, 'L', 0)
					m.put(fmt.Sprintf("y%d", h), name, -1)
				}
				m.put(x(g, c), name, 1)
			}
			for _, l := range k.Loads {
				if m.p.Switches[l.Switch].Minimum > 0 {
					m.put(x(g, c), fmt.Sprintf("m%d", l.Switch), -l.Amount)
				}
			}
		}
	}
}

// near writes, for every two groups and every value a of the first: columns of
// the first at most a, and of the second more than a + tolerance, exclude each
// other.
func (m *mps) near(i int) {
	n := &m.p.Near[i]
	for a, g := range n.Groups {
		for b, k := range n.Groups {
			if g == k {
				continue
			}
			for j, v := range distinct(n.Values[a]) {
				name := fmt.Sprintf("d%d_%d_%d_%d", i, g, k, j)
				var high []int
				for c, w := range n.Values[b] {
					if w > v+n.Tolerance {
						high = append(high, c)
					}
				}
				if len(high) == 0 {
					continue
				}
				m.row(name, 'L', 1)
				for c, w := range n.Values[a] {
					if w <= v {
						m.put(x(g, c), name, 1)
					}
				}
				for _, c := range high {
					m.put(x(k, c), name, 1)
				}
			}
		}
	}
}

func distinct(values []int64) []int64 {
	sorted := append([]int64(nil), values...)
	sort.Slice(sorted, func(i, j int) bool { return sorted[i] < sorted[j] })
	out := sorted[:0]
	for i, v := range sorted {
		if i == 0 || v != out[len(out)-1] {
			out = append(out, v)
		}
	}
	return out
}

func (m *mps) same(i int) {
	s := &m.p.Same[i]
	one := m.row(fmt.Sprintf("o%d", i), 'L', 1)
	for a, g := range s.Groups {
		seen := map[int]bool{}
		for c, label := range s.Labels[a] {
			if label < 0 {
				continue
			}
			u, name := fmt.Sprintf("s%d_%d", i, label), fmt.Sprintf("e%d_%d_%d", i, g, label)
			if _, ok := m.byColumn[u]; !ok {
				m.column(u)
				m.put(u, one, 1)
			}
			if !seen[label] {
				seen[label] = true
				m.row(name, 'L', 0)
				m.put(u, name, -1)
			}
			m.put(x(g, c), name, 1)
		}
	}
}

func (m *mps) write(b *bufio.Writer) {
	fmt.Fprintln(b, "NAME brightset FREE\nROWS\n N total")
	for _, r := range m.rows {
		fmt.Fprintf(b, " %c %s\n", r.sense, r.name)
	}
	fmt.Fprintln(b, "COLUMNS\n M1 'MARKER' 'INTORG'")
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
