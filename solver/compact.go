package solver

import "container/heap"

// sweep goes over all nodes that wait, after a better solution was found: it
// rules out what can't be better than that, and where few columns are left in
// all of them together, the search goes on with an instance of those alone.
func (s *search) sweep() {
	left := s.queue[:0]
	for _, n := range s.queue {
		if n.value <= float64(s.best.reach(s.other)-1) && !s.reduce(n.d, s.in.lagrangian(n.d, n.y, true), &s.best) {
			left = append(left, n)
		}
	}
	clear(s.queue[len(left):])
	s.queue = left
	heap.Init(&s.queue)
	all := newBits(len(s.in.cols))
	for _, n := range s.queue {
		all.join(n.d.alive)
	}
	if 2*all.count() < len(s.in.cols) && len(s.in.cols) > len(s.in.groups) {
		s.compact(all)
	}
}

// compact leaves out the columns that no waiting node has, and carries the nodes
// over. Their pools start afresh: the blocks may be others.
func (s *search) compact(all bits) {
	old := s.in
	s.in = old.keep(all)
	s.in.findAlike()
	s.in.findBlocks(true)
	pool := s.in.newPool()
	for _, n := range s.queue {
		n.d, n.y, n.pool = &domain{alive: n.d.alive.among(all, len(old.cols)), y: n.d.y}, s.in.mapDuals(old, n.y), pool
	}
}

// among numbers the members of b by their place among those of all, which it is within.
func (b bits) among(all bits, n int) bits {
	out, at := newBits(all.count()), 0
	for c := all.next(0, n); c < n; c = all.next(c+1, n) {
		if b.has(c) {
			out.add(at)
		}
		at++
	}
	return out
}
