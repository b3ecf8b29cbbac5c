package solver

import (
	"cmp"
	"math"
	"slices"
)

// A node of up to mostTightened columns is tightened: of more, linear programs take long, and
// most rounds rule little out. Implied rows are looked for in so many rounds at most, until one
// closes less than tightenLeast of what is open.
const (
	mostTightened   = 900
	mostTightenings = 8
	mostNewRows     = 8 // in a round
	mostParallel    = 0.9995
	tightenLeast    = 0.05
	leastDeep       = 1e-5
)

// tighten takes out of a node's domain what implied rows rule out: what is in no solution
// better than the best, or as good. done: nothing better is left. The rows hold in this domain
// alone and are not kept: what follows goes better by a relaxation without them, and it is in
// the nodes, not at the root, that they close most of what is open.
func (s *search) tighten(n *node, d *domain, m *master, o *outcome) (done bool) {
	if s.leave.implied || s.leave.fixing || d.alive.count() > mostTightened {
		return false
	}
	f, dearer := s.in.flat(d), m.dearer
	var lp *flatLP
	last := math.Inf(-1)
	for round := 0; round < mostTightenings && !s.halted(); round++ {
		lp = f.load(d, lp, dearer)
		r, err := lp.m.solve(d)
		o.lps++
		if err != nil || r == nil {
			break // the engine failed: what is known still holds
		}
		b := r.bound
		n.value = max(n.value, b.value-b.err)
		if b.prune(o.best.reach(s.other)) {
			return true
		}
		f.in.fix(d, b, o.best.reach(s.other))
		if !f.in.propagate(d) || s.putOff(n, d, b, n.y, m.pool, o) {
			return true
		}
		if r.slack > 1e-7 || b.value-last < tightenLeast*(float64(o.best.upper(s.other))-b.value) {
			break
		}
		last = b.value
		more := lp.cutOff(d, r)
		if len(more) == 0 {
			break
		}
		f = f.with(lp.inUse(), more)
	}
	return false
}

// cutOff gives implied rows that the relaxation breaks: the deepest, none much like another.
func (lp *flatLP) cutOff(d *domain, r *relaxation) (out []*implied) {
	type ranked struct {
		*implied
		deep float64
	}
	var list []ranked
	for _, k := range lp.m.combinations(lp.s) {
		if w := lp.m.in.round(d, k, r); w != nil {
			if deep := w.deep(r); deep > leastDeep {
				list = append(list, ranked{w, deep})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b ranked) int { return cmp.Compare(b.deep, a.deep) })
	for _, k := range list {
		if len(out) < mostNewRows &&
			!slices.ContainsFunc(out, func(o *implied) bool { return o.parallel(k.implied) > mostParallel }) {
			out = append(out, k.implied)
		}
	}
	return out
}
