package solver

import (
	"math"
)

// work bounds a node, finishes it if it is small, or branches.
func (s *search) work(n *node) (o outcome) {
	in, d := s.in, n.d
	o.best = s.best
	b := in.lagrangian(d, n.y, true)
	if s.reduce(d, b, &o.best) || s.putOff(n, d, b, n.y, n.pool, &o) {
		return o
	}
	if s.halted() {
		o.cut = true
		return o
	}
	m := in.newMaster(d, n.pool.clone(), true)
	m.dearer = max(1, n.dearer)
	defer m.close()
	r, y, finished := s.bounded(n, d, n.y, m, &o)
	if finished || s.tighten(n, d, m, &o) {
		return o
	}
	b = in.lagrangian(d, y, true)
	if b.prune(o.best.reach(s.other)) || s.putOff(n, d, b, y, m.pool, &o) ||
		in.enumerate(d, b, &o.best, s.other, s.picksAtMost(), s.halted) || s.layered(d, b, y, &o) {
		return o
	}
	if s.halted() {
		o.cut = true
		return o
	}
	idle, done := s.ruleOut(n, d, b, y, m.pool, &o)
	if done {
		return o
	}
	if r == nil || !s.branch(n, d, r, m, &o) {
		o.children = s.split(n, d, r, m.pool)
	}
	for _, c := range o.children {
		c.idle, c.dearer = idle, m.dearer
	}
	o.r = r
	return o
}

// ruleOut rules columns out by a bound that keeps a row whole, but not where that did
// nothing in the node above. idle: it did nothing here; done: nothing better is left.
func (s *search) ruleOut(n *node, d *domain, b *bound, y *duals, pool *pool, o *outcome) (idle, done bool) {
	if n.idle {
		return false, false
	}
	kept := s.keepRow(d, b, y, &o.best)
	if kept == nil {
		return true, false
	}
	was := d.alive.count()
	if s.reduce(d, kept, &o.best) || s.putOff(n, d, kept, y, pool, o) {
		return false, true
	}
	return d.alive.count() == was, false
}

// bounded solves the relaxation of a domain and rules columns out by it, again
// while that takes columns away that the LP makes use of. finished: nothing is
// left, or an error is in o.
func (s *search) bounded(n *node, d *domain, y *duals, m *master,
	o *outcome) (r *relaxation, best *duals, finished bool) {
	for range 4 {
		next, done, err := s.relaxNodeCounting(d, y, m, o)
		if err != nil || done {
			if o.err = err; next != nil {
				s.putOff(n, d, next.bound, next.duals, m.pool, o)
			}
			return nil, nil, true
		}
		if next == nil {
			return r, y, false
		}
		r, y = next, next.duals
		im := s.in.newImprover(d, r.bound, y, &o.best)
		im.budget = 4000
		im.run(s.in.rounded(r, d), false)
		if s.reduce(d, r.bound, &o.best) {
			return nil, nil, true
		}
		if s.in.standing(d, r) {
			break
		}
	}
	return r, y, false
}

// putOff keeps what may hold nothing better, but something as good, until the least total
// is proven. It says whether nothing better is left.
func (s *search) putOff(n *node, d *domain, b *bound, y *duals, pool *pool, o *outcome) bool {
	if !b.prune(o.best.upper(s.other)) {
		return false
	}
	if !b.prune(o.best.reach(s.other)) {
		o.children = append(o.children, &node{
			d:     d,
			y:     y,
			pool:  pool,
			value: math.Max(n.value, b.value-b.err),
			depth: n.depth + 1,
		})
	}
	return true
}

// standing says whether all columns the LP makes use of are still possible.
func (in *instance) standing(d *domain, r *relaxation) bool {
	for c, x := range r.x {
		if x > 1e-6 && !d.alive.has(c) {
			return false
		}
	}
	return true
}

// relaxNode solves a domain's relaxation. done: nothing of interest is in it.
func (s *search) relaxNode(d *domain, y *duals, m *master, best *incumbent) (r *relaxation, done bool, err error) {
	o := outcome{best: *best}
	r, done, err = s.relaxNodeCounting(d, y, m, &o)
	s.lps += o.lps
	return r, done, err
}

func (s *search) relaxNodeCounting(d *domain, y *duals, m *master, o *outcome) (r *relaxation, done bool, err error) {
	upper := o.best.upper(s.other)
	for asked := false; ; asked = true {
		next, err := m.relax(d, y, upper, allRounds)
		o.lps++
		if err != nil || next == nil {
			return r, false, err // what is in hand still holds
		}
		r = next
		if r.bound.prune(upper) {
			return r, true, nil
		}
		if r.slack <= 1e-7 || s.halted() {
			return r, false, nil
		}
		if !asked {
			empty, err := s.in.provenEmpty(d, m.pool)
			if o.lps++; empty || err != nil {
				return r, empty, err
			}
		}
		if !m.raise() {
			return r, false, nil
		}
	}
}

// provenEmpty says whether the relaxation shows that a domain has no solution at
// all: without costs the bound is positive only if that is so.
func (in *instance) provenEmpty(d *domain, p *pool) (bool, error) {
	m := in.newMaster(d, p, false)
	defer m.close()
	f, err := m.relax(d, nil, 1, allRounds)
	return f != nil && f.bound.value-f.bound.err > 0, err
}

// split makes two children of a node. r may be nil.
func (s *search) split(n *node, d *domain, r *relaxation, pool *pool) []*node {
	left, right := s.in.divide(d, r)
	var out []*node
	for _, c := range []*domain{left, right} {
		if c == nil || !s.in.propagate(c) {
			continue
		}
		child := &node{d: c, y: n.y, pool: pool, value: n.value, depth: n.depth + 1}
		if r != nil {
			child.y = r.duals
			child.value = math.Max(n.value, r.bound.value-r.bound.err)
		}
		out = append(out, child)
	}
	return out
}
