package solver

import "math"

// branch tries the cuts the LP is undecided about, solving linear programs for
// those of whose kind little is known, and takes the one that raises both
// children's bounds most. False: there is none.
func (s *search) branch(n *node, d *domain, r *relaxation, m *master, o *outcome) bool {
	list := s.in.candidates(d, r)
	best, bestScore, tried := []*node(nil), -1.0, 0
	for i := range list {
		k := &list[i]
		var rise [2]float64
		children := []*node(nil)
		if h := s.known[k.key]; h != nil && h[0].n >= trusted && h[1].n >= trusted {
			rise[0], rise[1] = h[0].sum/float64(h[0].n), h[1].sum/float64(h[1].n)
		} else if tried < mostTried && !s.halted() {
			tried++
			var aside []*node
			children, aside, rise = s.try(n, d, r, k, m, o)
			if len(children) < 2 {
				o.children = append(children, aside...)
				return true
			}
		} else {
			continue
		}
		if score := math.Max(rise[0], 0.01) * math.Max(rise[1], 0.01); score > bestScore {
			bestScore, best = score, children
			if children == nil {
				best = s.children(n, d, r, k, m.pool)
			}
		}
	}
	o.children = best
	return bestScore >= 0
}

// child is the node of a domain cut out of n's, nothing being known of it yet.
func (s *search) child(n *node, d *domain, r *relaxation, pool *pool) *node {
	return &node{d: d, y: r.duals, pool: pool, value: math.Max(n.value, r.bound.value-r.bound.err), depth: n.depth + 1}
}

// children makes the nodes of a cut without looking at them any further.
func (s *search) children(n *node, d *domain, r *relaxation, k *candidate, pool *pool) (out []*node) {
	left, right := s.in.apply(d, k)
	for _, c := range []*domain{left, right} {
		if s.in.propagate(c) {
			out = append(out, s.child(n, c, r, pool))
		}
	}
	return out
}

// try solves the relaxations of both children of a cut, without pricing to the
// end. Children with nothing of interest in them are left out, and those set aside that
// may hold something as good, but nothing better.
func (s *search) try(n *node, d *domain, r *relaxation, k *candidate, m *master,
	o *outcome) (out, aside []*node, rise [2]float64) {
	left, right := s.in.apply(d, k)
	upper := o.best.upper(s.other)
	for side, c := range []*domain{left, right} {
		rise[side] = float64(upper) - r.bound.value
		if !s.in.propagate(c) {
			continue
		}
		child := s.child(n, c, r, m.pool)
		t, err := m.relax(c, r.duals, upper, 2)
		o.lps++
		if err == nil && t != nil {
			if t.bound.prune(upper) {
				if !t.bound.prune(o.best.reach(s.other)) { // as good, maybe
					child.y, child.value = t.duals, math.Max(child.value, t.bound.value-t.bound.err)
					aside = append(aside, child)
				}
				continue
			}
			rise[side] = math.Max(0, t.bound.value-r.bound.value)
			if t.bound.value > r.bound.value {
				child.y = t.duals
				child.value = math.Max(child.value, t.bound.value-t.bound.err)
			}
		}
		o.learnt = append(o.learnt, lesson{k.key, side, rise[side]})
		out = append(out, child)
	}
	return out, aside, rise
}
