package solver

import "math"

// root solves the relaxation of the whole problem, finds a good solution, and
// leaves out every column that the two together rule out. It returns nil if
// nothing is left to search.
func (s *search) root(y *duals, pool *pool) (*node, error) {
	if pool == nil {
		pool = s.in.newPool()
	}
	for round := 0; round < 6; round++ {
		d := s.in.fullDomain()
		if !s.in.propagate(d) {
			return nil, nil
		}
		s.seedBest(pool)
		r, done, err := s.rootRound(d, y, pool, round == 0)
		if err != nil {
			return nil, err
		}
		if done {
			return s.waiting(d, r, pool), nil
		}
		if r == nil {
			return &node{d: d, y: y, pool: pool, value: float64(-Limit)}, nil
		}
		if r.bound.prune(s.best.upper(s.other)) {
			return s.waiting(d, r, pool), nil
		}
		if s.stopped() { // laying it out anew takes its time
			return &node{d: d, y: r.duals, pool: pool, value: r.bound.value - r.bound.err}, nil
		}
		if round == 0 && s.guess == nil {
			s.venture(r, pool)
		}
		s.in.fix(d, r.bound, s.best.reach(s.other))
		if !s.in.propagate(d) {
			return nil, nil
		}
		left, was := d.alive.count(), len(s.in.cols)
		old := s.in
		if left < was {
			s.in = s.in.keep(d.alive)
			s.dropDominated()
			s.in.findBlocks(true)
			y = s.in.mapDuals(old, r.duals)
			d = &domain{alive: fullBits(len(s.in.cols)), y: d.y}
			pool = s.in.newPool()
		} else {
			y = r.duals
		}
		if (round > 0 && float64(left) > 0.9*float64(was)) || s.stopped() {
			return &node{d: d, y: y, pool: pool, value: r.bound.value - r.bound.err}, nil
		}
	}
	return &node{d: s.in.fullDomain(), y: y, pool: pool, value: float64(s.bound)}, nil
}

// waiting is a node that holds nothing better than what is in hand, but maybe something as
// good; nil where that can't be.
func (s *search) waiting(d *domain, r *relaxation, pool *pool) *node {
	if r == nil || !r.bound.prune(s.best.upper(s.other)) || s.reduce(d, r.bound, &s.best) {
		return nil
	}
	return &node{d: d, y: r.duals, pool: pool, value: r.bound.value - r.bound.err}
}

// rootRound solves the relaxation of d and looks for good solutions near it. done:
// nothing of interest is in d. No relaxation: the engine failed.
func (s *search) rootRound(d *domain, y *duals, pool *pool, first bool) (r *relaxation, done bool, err error) {
	m := s.in.newMaster(d, pool, true)
	defer m.close()
	r, done, err = s.relaxNode(d, y, m, &s.best)
	s.nodes++
	if r == nil || done || err != nil {
		return r, done, err
	}
	s.bound = max(s.bound, r.bound.lower())
	if first && s.whole {
		s.memory.learn(s.in, r.duals)
	}
	if !s.near(r) {
		s.heuristics(d, r, m, first)
	}
	return r, false, nil
}

// nearFrom is how many parts in a thousand of the bound are little between it and a solution.
const nearFrom = 5

// near says whether there is little between the relaxation and what is in hand, or asked about, and
// solutions of earlier solves were tried: then the nodes find what is better sooner than looking for it.
func (s *search) near(r *relaxation) bool {
	return s.memory.row != nil && float64(s.best.upper(s.other))-r.bound.value <= nearFrom*math.Abs(r.bound.value)/1000
}

// start finds some solution before the first linear program, and leaves out what with
// it the multipliers of an earlier solve rule out. False: nothing is left.
func (s *search) start(d *domain) (y *duals, ok bool) {
	s.whole = true
	if s.memory.row == nil || s.in.blocks == nil {
		s.shrinkTo(d.alive)
		s.dropDominated()
		s.in.findBlocks(false)
		d = s.in.fullDomain()
		if !s.in.propagate(d) {
			return nil, false
		}
	}
	y = s.memory.recall(s.in)
	if !s.fixByMemory(d, y) {
		return nil, false
	}
	if s.quickStart(d, y); s.stopped() {
		return nil, false
	}
	if s.memory.row == nil {
		return y, true
	}
	if !s.fixByMemory(d, y) {
		return nil, false
	}
	if s.stopped() {
		return nil, false
	}
	if d.alive.count() == len(s.in.cols) {
		return y, true
	}
	old := s.in
	s.shrinkTo(d.alive)
	s.dropDominated()
	s.in.findBlocks(!s.whole)
	return s.in.mapDuals(old, y), true
}

// fixByMemory leaves out what the multipliers of an earlier solve rule out. False:
// nothing is left.
func (s *search) fixByMemory(d *domain, y *duals) bool {
	if s.memory.row == nil || !s.best.has && s.ch.Below == nil {
		return true
	}
	was := d.alive.count()
	b := s.in.lagrangian(d, y, true)
	s.bound = max(s.bound, b.lower())
	if s.reduce(d, b, &s.best) {
		return false
	}
	s.whole = s.whole && d.alive.count() == was
	return true
}

// quickStart finds some solution before the first linear program, so that a
// search that is stopped early has one in hand.
func (s *search) quickStart(d *domain, y *duals) {
	b := s.in.lagrangian(d, y, true)
	s.bound = max(s.bound, b.lower())
	im := s.in.newImprover(d, b, y, &s.best)
	im.budget = 30_000
	im.run(b.best, false)
	if s.halted() {
		return
	}
	for _, pick := range s.memory.picks[:min(len(s.memory.picks), mostRevised)] {
		im = s.in.newImprover(d, b, y, &s.best)
		im.budget = 30_000
		im.run(s.revised(d, pick, b), true)
	}
}

// mostRevised is how many picks of earlier solves are started from.
const mostRevised = 3

// revised is an earlier pick, with the bound's own in blocks where it is no longer
// possible.
func (s *search) revised(d *domain, pick []int, b *bound) [][]int {
	out := make([][]int, len(s.in.blocks))
	for i := range s.in.blocks {
		for _, g := range s.in.blocks[i].groups {
			if c := s.in.columnOf(d, g, pick[g]); c >= 0 {
				out[i] = append(out[i], c)
			}
		}
		if len(out[i]) < len(s.in.blocks[i].groups) {
			out[i] = b.best[i]
		}
	}
	return out
}

// columnOf finds a column of the problem among those alive, -1 if it is not there.
func (in *instance) columnOf(d *domain, g, orig int) int {
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if in.cols[c].orig == orig {
			return c
		}
	}
	return -1
}

// seedBest puts the best solution in hand into the pool, so that the first
// linear program has a solution to start from.
func (s *search) seedBest(p *pool) {
	if !s.best.has {
		return
	}
	at := make([]int, len(s.in.groups))
	for g, span := range s.in.groups {
		at[g] = -1
		for c := span[0]; c < span[1]; c++ {
			if s.in.cols[c].orig == s.best.pick[g] {
				at[g] = c
			}
		}
	}
	for i := range s.in.blocks {
		pick := make([]int, 0, len(s.in.blocks[i].groups))
		for _, g := range s.in.blocks[i].groups {
			if at[g] >= 0 {
				pick = append(pick, at[g])
			}
		}
		if len(pick) == len(s.in.blocks[i].groups) && !s.in.whole(i) {
			p.add(i, pick)
		}
	}
}

// mapDuals carries multipliers over from an instance that had more columns.
func (in *instance) mapDuals(old *instance, y *duals) *duals {
	at := make(map[link]float64, len(old.links))
	for l, k := range old.links {
		at[k] = y.link[l]
	}
	out := in.zeroDuals()
	copy(out.row, y.row)
	copy(out.min, y.min)
	copy(out.need, y.need)
	for l, k := range in.links {
		out.link[l] = at[k]
	}
	return out
}
