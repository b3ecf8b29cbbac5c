package solver

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
