package solver

import (
	"cmp"
	"math"
	"slices"
)

// branch tries the cuts the LP is undecided about, by solving linear programs, and takes the
// one that raises both children's bounds most; where one side of a cut holds nothing of
// interest, the other is all there is. Cuts that promise most are tried first: where the
// search is thorough, those most likely to leave one side. False: there is none.
func (s *search) branch(n *node, d *domain, r *relaxation, m *master, o *outcome) bool {
	list := s.in.candidates(d, r)
	expected, promise := make([][2]float64, len(list)), make([]float64, len(list))
	order, tried := make([]int, len(list)), make([]int, len(list))
	for i := range list {
		order[i] = i
		expected[i], tried[i] = s.known.expected(&list[i])
		promise[i] = score(expected[i])
		if s.thorough {
			promise[i] = max(expected[i][0], expected[i][1])
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(promise[b], promise[a]) })
	tries, patience := cursoryTries, cursoryPatience
	if s.thorough {
		tries, patience = thoroughTries, thoroughTries
		if n.depth > thoroughDepth {
			patience = deepPatience
		}
	}
	best, bestScore, idle := []*node(nil), -1.0, 0
	for _, i := range order {
		if !s.thorough && tried[i] >= trusted {
			if idle++; score(expected[i]) > bestScore {
				idle, bestScore, best = 0, score(expected[i]), s.children(n, d, r, &list[i], m.pool)
			}
			continue
		}
		if tries == 0 || best != nil && (idle >= patience || s.halted()) {
			continue
		}
		tries--
		first := 0
		if expected[i][1] > expected[i][0] {
			first = 1
		}
		children, aside, rise := s.try(n, d, r, &list[i], first, m, o)
		if len(children) < 2 {
			o.children = append(children, aside...)
			return true
		}
		idle++
		if v := score(rise); v > bestScore {
			idle, bestScore, best = 0, v, children
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

// try solves the relaxations of both children of a cut, without pricing to the end, first
// that of one side. Where that holds nothing of interest the other is all there is, and is
// not looked at; it is set aside where it may hold something as good, but nothing better.
func (s *search) try(n *node, d *domain, r *relaxation, k *candidate, first int, m *master,
	o *outcome) (out, aside []*node, rise [2]float64) {
	var sides [2]*domain
	sides[0], sides[1] = s.in.apply(d, k)
	for _, side := range []int{first, 1 - first} {
		child := s.child(n, sides[side], r, m.pool)
		gone, above, equal := s.look(child, r, m, o)
		if rise[side] = above; gone && equal {
			aside = append(aside, child)
		}
		o.learnt = append(o.learnt, lesson{k.key, side, k.move[side], rise[side]})
		switch {
		case gone && side == first:
			if other := s.child(n, sides[1-side], r, m.pool); s.in.propagate(other.d) {
				out = append(out, other)
			}
			return out, aside, rise
		case !gone:
			out = append(out, child)
		}
	}
	return out, aside, rise
}

// look takes from a child what can't be, and solves its relaxation. gone: it holds nothing
// better than what is in hand; equal: but maybe something as good. rise is what its bound is
// above its parent's.
func (s *search) look(child *node, r *relaxation, m *master, o *outcome) (gone bool, rise float64, equal bool) {
	upper := o.best.upper(s.other)
	rise = float64(upper) - r.bound.value
	if !s.in.propagate(child.d) {
		return true, rise, false
	}
	t, err := m.relax(child.d, r.duals, upper, 2)
	o.lps++
	if err != nil || t == nil {
		return false, rise, false
	}
	if t.bound.value > r.bound.value {
		child.y = t.duals
		child.value = math.Max(child.value, t.bound.value-t.bound.err)
	}
	if t.bound.prune(upper) {
		return true, rise, !t.bound.prune(o.best.reach(s.other))
	}
	return false, math.Max(0, t.bound.value-r.bound.value), false
}
