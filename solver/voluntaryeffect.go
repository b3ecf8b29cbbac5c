package solver

import (
	"cmp"
	"slices"
)

// effect is what turning a switch on does, with all that it needs. What several
// open switches need is paid by one of them: hence the two ends.
type effect struct {
	cost span
	rows []spanAt
}

type span struct{ lo, hi int64 }

type spanAt struct {
	row int
	span
}

// weigh works out what every open switch would do. False: some row is broken
// whatever they do.
func (c *chooser) weigh() bool {
	in, t := c.t.in, c.t
	charges := t.charges()
	clear(c.sharers)
	for _, h := range c.open {
		c.sharers[h]++
		for _, n := range in.switches[h].needs {
			c.sharers[n]++
		}
	}
	for _, r := range c.rows {
		v := t.rows[r]
		if in.rows[r].charges {
			v += charges[in.rows[r].account]
		}
		c.row[r] = span{v, v}
	}
	for _, h := range c.open {
		e := &c.effects[h]
		e.cost, e.rows = span{}, e.rows[:0]
		if c.t.need[h] > 0 {
			continue
		}
		e.add(c, h)
		for _, n := range in.switches[h].needs {
			if t.need[n] == 0 {
				e.add(c, n)
			}
		}
		for _, k := range e.rows {
			c.row[k.row].lo += min(0, k.lo)
			c.row[k.row].hi += max(0, k.hi)
		}
	}
	for _, r := range c.rows {
		if c.row[r].lo > in.rows[r].limit {
			return false
		}
	}
	return true
}

// add counts in what switch n does when it goes on.
func (e *effect) add(c *chooser, n int) {
	in, s := c.t.in, &c.t.in.switches[n]
	shared := c.sharers[n] > 1
	charge := s.fixed + max(0, s.minimum-c.t.load[n])
	if in.objective(n) {
		e.cost.add(charge, shared)
	}
	for _, m := range s.terms {
		e.at(m.Row).add(m.Coef, shared)
	}
	for _, r := range in.paid {
		if in.rows[r].account == s.account && charge != 0 {
			e.at(r).add(charge, shared)
		}
	}
}

func (s *span) add(v int64, shared bool) {
	if shared {
		s.lo, s.hi = s.lo+min(0, v), s.hi+max(0, v)
	} else {
		s.lo, s.hi = s.lo+v, s.hi+v
	}
}

func (e *effect) at(row int) *span {
	i := slices.IndexFunc(e.rows, func(k spanAt) bool { return k.row == row })
	if i < 0 {
		i = len(e.rows)
		e.rows = append(e.rows, spanAt{row: row})
	}
	return &e.rows[i].span
}

// byCost sorts switches, those that save most first.
func (c *chooser) byCost(list []int) []int {
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(c.effects[a].cost.hi, c.effects[b].cost.hi) })
	return out
}
