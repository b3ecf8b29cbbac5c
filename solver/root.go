package solver

import "sort"

// root solves the relaxation of the whole problem, finds a good solution, and
// leaves out every column that the two together rule out. It returns nil if
// nothing is left to search.
func (s *search) root() (*node, error) {
	y := s.memory.recall(s.in)
	s.quickStart(y)
	if s.stopped() {
		return nil, nil
	}
	y, ok := s.fixByMemory(y)
	if !ok {
		return nil, nil
	}
	pool := s.in.newPool()
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
	s.heuristics(d, r, m, first)
	return r, false, nil
}

// fixByMemory leaves out what the multipliers of an earlier solve rule out
// before the first linear program. False: nothing is left.
func (s *search) fixByMemory(y *duals) (*duals, bool) {
	s.whole = true
	if s.memory.row == nil || !s.best.has {
		return y, true
	}
	d := s.in.fullDomain()
	if !s.in.propagate(d) || s.reduce(d, s.in.lagrangian(d, y, true), &s.best) {
		return y, false
	}
	if d.alive.count() == len(s.in.cols) {
		return y, true
	}
	old := s.in
	s.in = s.in.keep(d.alive)
	s.dropDominated()
	s.in.findBlocks(true)
	s.whole = false
	return s.in.mapDuals(old, y), true
}

// quickStart finds some solution before the first linear program, so that a
// search that is stopped early has one in hand.
func (s *search) quickStart(y *duals) {
	d := s.in.fullDomain()
	if !s.in.propagate(d) {
		return
	}
	b := s.in.lagrangian(d, y, true)
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

// heuristics looks for a good solution near the relaxation.
func (s *search) heuristics(d *domain, r *relaxation, m *master, first bool) {
	im := s.in.newImprover(d, r.bound, r.duals, &s.best)
	im.run(s.in.rounded(r, d), true)
	if s.best.has && first {
		// A second start, from the bound's own pick.
		im = s.in.newImprover(d, r.bound, r.duals, &s.best)
		im.run(r.bound.best, true)
	}
	s.dive(d, r, m)
}

// rounded is, per block, the pick with the most weight in the LP.
func (in *instance) rounded(r *relaxation, d *domain) [][]int {
	out := make([][]int, len(in.blocks))
	for i := range in.blocks {
		weight := -1.0
		for _, k := range r.combo[i] {
			if k.weight > weight {
				weight, out[i] = k.weight, k.cols
			}
		}
		if out[i] == nil {
			out[i] = r.bound.best[i]
		}
	}
	return out
}

// dive settles the blocks the LP is sure of and some it is nearly sure of, solves
// again, and so on down to a full pick.
func (s *search) dive(d *domain, r *relaxation, m *master) {
	for step := 0; step < 100 && !s.halted(); step++ {
		if c, next := s.settleSwitch(d, r, m); next != nil {
			d, r = c, next
			continue
		}
		d = s.in.settle(d, r)
		if d == nil {
			return
		}
		b := s.in.lagrangian(d, r.duals, true)
		if b.prune(s.best.upper(s.other)) || s.reduce(d, b, &s.best) {
			return
		}
		if d.alive.count() == len(s.in.groups) {
			t := s.in.newTally()
			for g := range s.in.groups {
				t.set(g, s.in.first(d, g))
			}
			s.best.offer(t)
			return
		}
		next, err := m.relax(d, r.duals, s.best.upper(s.other), allRounds)
		s.lps++
		if err != nil || next == nil || next.bound.prune(s.best.upper(s.other)) {
			return
		}
		r = next
		im := s.in.newImprover(d, r.bound, r.duals, &s.best)
		im.budget = 20_000
		im.run(s.in.rounded(r, d), false)
	}
}

// settleSwitch turns the most undecided switch off or on, whichever has the lower
// bound. No relaxation: the LP is undecided about none, or nothing of interest is
// left either way.
func (s *search) settleSwitch(d *domain, r *relaxation, m *master) (*domain, *relaxation) {
	h := s.in.undecidedSwitch(d, r)
	if h < 0 {
		return nil, nil
	}
	var bestD *domain
	var best *relaxation
	for _, way := range []int8{off, on} {
		c := d.clone()
		c.y[h] = way
		if !s.in.propagate(c) {
			continue
		}
		next, err := m.relax(c, r.duals, s.best.upper(s.other), 2)
		s.lps++
		if err != nil || next == nil || next.bound.prune(s.best.upper(s.other)) {
			continue
		}
		if best == nil || next.value < best.value {
			bestD, best = c, next
		}
	}
	return bestD, best
}

// settle restricts a copy of d, block by block, to the picks with the most
// weight in the LP: those it is sure of and at least one more. A pick that leaves
// no solution is passed over. Nil if none can be settled.
func (in *instance) settle(d *domain, r *relaxation) *domain {
	type weighed struct {
		block int
		combo
	}
	var list []weighed
	for i, combos := range r.combo {
		if !in.settled(d, i) {
			for _, k := range combos {
				list = append(list, weighed{i, k})
			}
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].weight > list[b].weight })
	done := false
	settled := make([]bool, len(in.blocks))
	if sure := in.settleSure(d, r); sure != nil {
		d, done = sure, true
	}
	for n, k := range list {
		if k.weight < 0.9999 && done && n >= len(list)/6 {
			break
		}
		if settled[k.block] || !in.aliveAll(d, k.cols) || in.settled(d, k.block) {
			continue
		}
		try := d.clone()
		in.restrict(try, k.block, k.cols)
		if !in.propagate(try) {
			continue
		}
		d, done = try, true
		settled[k.block] = true
	}
	if !done {
		return nil
	}
	return d
}

// settleSure settles all blocks at once that the LP is sure of. Nil if there are
// none, or they don't go together.
func (in *instance) settleSure(d *domain, r *relaxation) *domain {
	try, any := d.clone(), false
	for i, combos := range r.combo {
		for _, k := range combos {
			if k.weight >= 0.9999 && in.aliveAll(d, k.cols) {
				in.restrict(try, i, k.cols)
				any = true
			}
		}
	}
	if !any || try.alive.count() == d.alive.count() || !in.propagate(try) {
		return nil
	}
	return try
}

// settled says whether a block has one pick left.
func (in *instance) settled(d *domain, block int) bool {
	for _, g := range in.blocks[block].groups {
		if in.count(d, g, 2) > 1 {
			return false
		}
	}
	return true
}

func (in *instance) restrict(d *domain, block int, cols []int) {
	for i, g := range in.blocks[block].groups {
		for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
			if c != cols[i] {
				d.alive.drop(c)
			}
		}
	}
}
