package solver

import (
	"bufio"
	"fmt"
	"io"
	"sort"
	"strconv"
)

// WriteMPS writes the problem in free MPS form, so that any integer-programming
// solver can judge an answer. Columns are x<group>_<column>, switches y<switch>,
// top-ups of minimums t<switch>, and s<rule>_<label> says which label a same
// rule has settled on. Links are written per group and switch, near rules as
// rows over the columns that exclude each other.
func (p *Problem) WriteMPS(w io.Writer) error {
	m := &mps{p: p, byColumn: map[string]*mpsColumn{}, real: map[string]bool{}}
	m.collect()
	b := bufio.NewWriter(w)
	m.write(b)
	return b.Flush()
}

// mps holds the rows and the few columns that are no group's. A group's columns are
// made one by one as they are written: there may be millions.
type mps struct {
	p        *Problem
	rows     []mpsRow
	columns  []string // of switches and same rules, in order
	byColumn map[string]*mpsColumn
	real     map[string]bool

	rowName   []string // of the problem's rows; "" where a row can't bind
	groupName []string
	linkName  [][]string // by group and switch
	onlyName  []string   // by switch, of the row that says it is on only if needed; "" for none
	only      bool       // there is such a row
	loadName  []string   // of the rows of minimums, by switch; "" where there is none
	nearNames []nearRows
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

// rowBinds says whether a limit can matter at all.
func (r *Row) binds() bool {
	return (r.Sense == AtMost && r.Limit < Limit) || (r.Sense == AtLeast && r.Limit > -Limit)
}

func (m *mps) collect() {
	p := m.p
	m.rowName = make([]string, len(p.Rows))
	for r := range p.Rows {
		if p.Rows[r].binds() {
			m.rowName[r] = m.row("r"+strconv.Itoa(r), "LG"[p.Rows[r].Sense], p.Rows[r].Limit)
		}
	}
	for g := range p.Groups {
		m.groupName = append(m.groupName, m.row("g"+strconv.Itoa(g), 'E', 1))
	}
	m.switches()
	m.onlyIfNeeded()
	m.links()
	for i := range p.WithinTolerance {
		m.nearNames = append(m.nearNames, m.near(i))
	}
	for i := range p.AllEqual {
		m.same(i)
	}
}

func (m *mps) terms(column string, terms []Term) {
	for _, t := range terms {
		if name := m.rowName[t.Row]; name != "" {
			m.put(column, name, t.Coef)
		}
	}
}

func (m *mps) switches() {
	m.loadName = make([]string, len(m.p.Switches))
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
			m.loadName[h] = name
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

// onlyIfNeeded writes, of every switch that could be of use while nothing needs it, that
// it is on only if a column or a voluntary switch turns it on. Of others it goes without
// saying: they cost, and do nothing else.
func (m *mps) onlyIfNeeded() {
	m.onlyName = make([]string, len(m.p.Switches))
	for h := range m.p.Switches {
		s := &m.p.Switches[h]
		if s.Voluntary || s.Fixed >= 0 && len(s.Terms) == 0 {
			continue
		}
		m.only = true
		m.onlyName[h] = m.row(fmt.Sprintf("u%d", h), 'L', 0)
		m.put(fmt.Sprintf("y%d", h), m.onlyName[h], 1)
		for v := range m.p.Switches {
			if m.p.Switches[v].Voluntary && contains(m.p.closure([]int{v}), h) {
				m.put(fmt.Sprintf("y%d", v), m.onlyName[h], -1)
			}
		}
	}
}

func (m *mps) links() {
	m.linkName = make([][]string, len(m.p.Groups))
	for g := range m.p.Groups {
		names := make([]string, len(m.p.Switches))
		for c := range m.p.Groups[g].Columns {
			for _, h := range m.p.Groups[g].Columns[c].Needs {
				if names[h] == "" {
					names[h] = m.row(fmt.Sprintf("l%d_%d", g, h), 'L', 0)
					m.put(fmt.Sprintf("y%d", h), names[h], -1)
				}
			}
		}
		m.linkName[g] = names
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
	s := &m.p.AllEqual[i]
	one := m.row(fmt.Sprintf("o%d", i), 'L', 1)
	for a, g := range s.Groups {
		seen := map[int]bool{}
		for _, label := range s.Labels[a] {
			if label < 0 || seen[label] {
				continue
			}
			seen[label] = true
			u := fmt.Sprintf("s%d_%d", i, label)
			if _, ok := m.byColumn[u]; !ok {
				m.column(u)
				m.put(u, one, 1)
			}
			m.put(u, m.row(sameRow(i, g, label), 'L', 0), -1)
		}
	}
}

func sameRow(i, g, label int) string { return fmt.Sprintf("e%d_%d_%d", i, g, label) }
