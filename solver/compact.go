package solver

import "container/heap"

// sweep goes over all nodes that wait, after a better solution was found: it
// rules out what can't be better than that, and where few columns are left in
// all of them together, the search goes on with an instance of those alone.
func (s *search) sweep() {
	left := s.queue[:0]
	for _, n := range s.queue {
		if n.value <= float64(s.best.upper(s.other)-1) && !s.reduce(n.d, s.in.lagrangian(n.d, n.y, true), &s.best) {
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
	s.in.findBlocks(true)
	pool := s.in.newPool()
	for _, n := range s.queue {
		alive, at := newBits(len(s.in.cols)), 0
		for c := all.next(0, len(old.cols)); c < len(old.cols); c = all.next(c+1, len(old.cols)) {
			if n.d.alive.has(c) {
				alive.add(at)
			}
			at++
		}
		n.d, n.y, n.pool = &domain{alive: alive, y: n.d.y}, s.in.mapDuals(old, n.y), pool
	}
}
