package program

import (
	"slices"

	"brightset/solver"
)

// walk tries every solution of a problem and gives the least total. only, if
// not nil, picks the columns of the first group.
func walk(p *solver.Problem, ch solver.Change, only func(col int) bool) (int64, bool) {
	w := walker{p: p, limits: map[int]int64{}, fixed: map[int]int64{}, off: ch.Off, pick: make([]int, len(p.Groups)),
		only: only}
	for _, l := range ch.Limits {
		w.limits[l.Row] = l.Limit
	}
	for _, f := range ch.Fixed {
		w.fixed[f.Switch] = f.Fixed
	}
	for i := range p.Switches {
		if p.Switches[i].Voluntary {
			w.voluntary = append(w.voluntary, i)
		}
	}
	w.sums = make([]int64, len(p.Rows))
	w.on = make([]bool, len(p.Switches))
	w.loads = make([]int64, len(p.Switches))
	w.descend(0, 0)
	return w.least, w.found
}

type walker struct {
	p             *solver.Problem
	limits, fixed map[int]int64
	off           []solver.Tag
	only          func(int) bool
	voluntary     []int
	pick          []int
	sums, loads   []int64
	on            []bool
	least         int64
	found         bool
}

func (w *walker) descend(g int, cost int64) {
	if g == len(w.p.Groups) {
		if w.alike() {
			w.charge(cost)
		}
		return
	}
	for i := range w.p.Groups[g].Columns {
		c := &w.p.Groups[g].Columns[i]
		if g == 0 && w.only != nil && !w.only(i) {
			continue
		}
		w.pick[g] = i
		for _, t := range c.Terms {
			w.sums[t.Row] += t.Coef
		}
		w.descend(g+1, cost+c.Cost)
		for _, t := range c.Terms {
			w.sums[t.Row] -= t.Coef
		}
	}
}

// alike checks the near and same constraints.
func (w *walker) alike() bool {
	for _, n := range w.p.WithinTolerance {
		lo, hi := int64(1)<<60, int64(-1)<<60
		for i, g := range n.Groups {
			v := n.Values[i][w.pick[g]]
			lo, hi = min(lo, v), max(hi, v)
		}
		if hi-lo > n.Tolerance && !slices.Contains(w.off, n.Tag) {
			return false
		}
	}
	for _, n := range w.p.AllEqual {
		label := -1
		for i, g := range n.Groups {
			v := n.Labels[i][w.pick[g]]
			if v >= 0 && label >= 0 && v != label && !slices.Contains(w.off, n.Tag) {
				return false
			}
			label = max(label, v)
		}
	}
	return true
}

// charge tries every set of voluntary switches on top of those needed.
func (w *walker) charge(cost int64) {
	for mask := range 1 << len(w.voluntary) {
		clear(w.on)
		clear(w.loads)
		for i, v := range w.voluntary {
			w.on[v] = mask>>i&1 == 1
		}
		for g, i := range w.pick {
			c := &w.p.Groups[g].Columns[i]
			for _, n := range c.Needs {
				w.on[n] = true
				for _, m := range w.p.Switches[n].Needs {
					w.on[m] = true
				}
			}
			for _, l := range c.Loads {
				w.loads[l.Switch] += l.Amount
			}
		}
		w.finish(cost)
	}
}

func (w *walker) finish(cost int64) {
	charges := int64(0)
	rows := slices.Clone(w.sums)
	for i := range w.p.Switches {
		s := &w.p.Switches[i]
		if !w.on[i] {
			continue
		}
		for _, t := range s.Terms {
			rows[t.Row] += t.Coef
		}
		if slices.Contains(w.off, s.Tag) {
			continue
		}
		fixed, ok := w.fixed[i]
		if !ok {
			fixed = s.Fixed
		}
		charges += fixed + max(0, s.Minimum-w.loads[i])
	}
	for i := range w.p.Rows {
		r := &w.p.Rows[i]
		limit, ok := w.limits[i]
		if !ok {
			limit = r.Limit
		}
		if r.Charges {
			rows[i] += charges
		}
		if r.Tag != "" && slices.Contains(w.off, r.Tag) {
			continue
		}
		if r.Sense == solver.AtMost && rows[i] > limit || r.Sense == solver.AtLeast && rows[i] < limit {
			return
		}
	}
	if !w.p.Uncharged {
		cost += charges
	}
	if !w.found || cost < w.least {
		w.found, w.least = true, cost
	}
}
