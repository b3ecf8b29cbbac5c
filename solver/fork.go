package solver

import "slices"

// Fork is a solver of the same problem that knows what this one knows now. From here on
// the two learn apart: questions that are asked of one fork each have answers that don't
// depend on each other, nor on which is asked first. Forks may be used at the same time.
func (s *Solver) Fork() *Solver {
	return &Solver{p: s.p, sums: s.sums, memory: s.memory.copied(), layout: s.layout, leave: s.leave}
}

// copied shares what is replaced as a whole, and copies what is written into.
func (m *memory) copied() memory {
	c := *m
	c.min, c.picks = slices.Clone(m.min), slices.Clone(m.picks)
	return c
}

// NewAfter makes a solver for a problem that is much like that of another solver, and
// takes over what that one knows: multipliers by the names of rows, switches and groups,
// picks by the names of columns. What is not found again starts from nothing.
func NewAfter(p *Problem, from *Solver) (*Solver, error) {
	if from.p == p {
		return from.Fork(), nil
	}
	s, err := New(p)
	if err != nil {
		return nil, err
	}
	s.memory = from.memory.carried(from.p, p)
	return s, nil
}

// carried is the memory of one problem in the terms of another.
func (m *memory) carried(from, to *Problem) memory {
	var c memory
	terms := NewCarrier(from, to)
	groups, switches := terms.groups, terms.switches
	if m.row != nil {
		rows := places(len(from.Rows), len(to.Rows), func(r int) string { return from.Rows[r].Name },
			func(r int) string { return to.Rows[r].Name })
		c.row, c.link, c.need = map[int]float64{}, map[link]float64{}, map[link]float64{}
		for r, v := range m.row {
			if r >= 0 && rows[r] >= 0 {
				c.row[rows[r]] = v
			}
		}
		for k, v := range m.link {
			if g := linkedWith(k.group, groups, rows, len(to.Groups)); g >= 0 && switches[k.sw] >= 0 {
				c.link[link{g, switches[k.sw]}] = v
			}
		}
		for k, v := range m.need { // of two switches
			if switches[k.group] >= 0 && switches[k.sw] >= 0 {
				c.need[link{switches[k.group], switches[k.sw]}] = v
			}
		}
		c.min = make([]float64, len(to.Switches))
		for h, v := range m.min {
			if switches[h] >= 0 {
				c.min[switches[h]] = v
			}
		}
	}
	for _, pick := range m.picks {
		if q := carriedPick(from, to, groups, pick); q != nil {
			c.picks = append(c.picks, q)
		}
	}
	return c
}

// linkedWith is what a link is of, a group or a row, in the terms of another problem; -1
// where that has no such thing.
func linkedWith(g int, groups, rows []int, n int) int {
	switch {
	case g < len(groups):
		return groups[g]
	case rows[g-len(groups)] < 0:
		return -1
	}
	return n + rows[g-len(groups)]
}

// places says, of things with names, where each stands in another list; -1 where it does
// not. Names that occur several times go by their order.
func places(n, m int, from, to func(int) string) []int {
	at := map[string][]int{}
	for i := range m {
		at[to(i)] = append(at[to(i)], i)
	}
	out := make([]int, n)
	for i := range out {
		out[i] = -1
		if list := at[from(i)]; len(list) > 0 {
			out[i], at[from(i)] = list[0], list[1:]
		}
	}
	return out
}

// Carrier reads solutions of one problem in the terms of another much like it, by the names
// of groups, columns and switches.
type Carrier struct {
	from, to         *Problem
	groups, switches []int
}

// NewCarrier is a carrier from one problem to another.
func NewCarrier(from, to *Problem) *Carrier {
	return &Carrier{from, to,
		places(len(from.Groups), len(to.Groups), func(g int) string { return from.Groups[g].Name },
			func(g int) string { return to.Groups[g].Name }),
		places(len(from.Switches), len(to.Switches), func(h int) string { return from.Switches[h].Name },
			func(h int) string { return to.Switches[h].Name })}
}

// Carry gives a pick and its switches in the other problem's terms, fit to be evaluated
// there; nil where that has no such solution.
func (c *Carrier) Carry(pick []int, on []bool) (out []int, voluntary []bool) {
	out = carriedPick(c.from, c.to, c.groups, pick)
	if out == nil || slices.Contains(out, -1) {
		return nil, nil
	}
	voluntary = make([]bool, len(c.to.Switches))
	for h, is := range on {
		if c.from.Switches[h].Voluntary && is {
			if c.switches[h] < 0 {
				return nil, nil
			}
			voluntary[c.switches[h]] = true
		}
	}
	return out, voluntary
}

// carriedPick is a pick in the terms of another problem; nil where a group is new. A
// column that is not there any more is -1, as one that was not there before: it is not
// among those of its group.
func carriedPick(from, to *Problem, groups []int, pick []int) []int {
	out, filled := make([]int, len(to.Groups)), 0
	for g, c := range pick {
		if groups[g] < 0 {
			continue
		}
		out[groups[g]] = -1
		if c >= 0 {
			out[groups[g]] = to.Groups[groups[g]].named(from.Groups[g].Columns[c].Name, c)
		}
		filled++
	}
	if filled < len(out) {
		return nil
	}
	return out
}

// named is the place of the column of that name, the one at place c where that is called
// so; -1 where none is.
func (g *Group) named(name string, c int) int {
	if c < len(g.Columns) && g.Columns[c].Name == name {
		return c
	}
	return slices.IndexFunc(g.Columns, func(k Column) bool { return k.Name == name })
}
