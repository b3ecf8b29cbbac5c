package solver

import "math"

// flipBoxed takes variables with two bounds to the one that their reduced cost asks for.
func (s *simplex) flipBoxed() {
	flipped := false
	for j := range s.variables() {
		if s.wrong(j) <= dualTolerance {
			continue
		}
		if s.at[j] == atLower && !math.IsInf(s.up[j], 1) {
			s.at[j], flipped = atUpper, true
		} else if s.at[j] == atUpper && !math.IsInf(s.lo[j], -1) {
			s.at[j], flipped = atLower, true
		}
	}
	if flipped {
		s.values()
	}
}

// shift changes costs where reduced costs have the wrong sign, so that the basis is
// feasible for the dual method.
func (s *simplex) shift() {
	for j := range s.variables() {
		if s.wrong(j) > 0 {
			s.shifted[j] -= s.d[j]
			s.d[j] = 0
		}
	}
}

// dual makes the basis feasible, by exchanges that keep the reduced costs' signs. False:
// it can't be, or it is time to give up.
func (s *simplex) dual(halt func() bool) bool {
	anew := false // the basis has just been eliminated
	for ; s.steps > 0; s.steps-- {
		if s.steps%64 == 0 && halt() {
			return false
		}
		if s.fac.worn() {
			if !s.refresh() {
				return false
			}
			s.shift()
			anew = true
		}
		place, target := s.leaving()
		if place < 0 {
			return true
		}
		s.priceRow(place)
		enters, step := s.entering(int(s.head[place]), target)
		if enters >= 0 {
			s.column(s.alpha, enters)
		}
		if enters < 0 || !s.agrees(place, enters) {
			if anew || len(s.fac.place) == 0 {
				return enters >= 0
			}
			if !s.refresh() {
				return false
			}
			s.shift()
			anew = true
			continue
		}
		anew = false
		s.flip()
		leaves := int(s.head[place])
		by := (s.x[leaves] - target) / s.alpha[place]
		s.move(enters, by)
		s.exchange(place, enters, step)
		s.settleAt(leaves, target)
	}
	return false
}

// agrees says whether the pivot is the same by row and by column, and large enough.
func (s *simplex) agrees(place, enters int) bool {
	a, b := s.alpha[place], s.row.val[enters]
	return math.Abs(a) > tinyPivot && math.Abs(a-b) <= 1e-7*(1+math.Abs(a))
}

// leaving is the place whose variable is furthest beyond a bound, measured along the
// edge, and the bound; -1 where there is none.
func (s *simplex) leaving() (place int, target float64) {
	place, best := -1, 0.0
	for p, j := range s.head {
		x := s.x[j]
		v := max(s.lo[j]-x, x-s.up[j])
		if v <= primalTolerance {
			continue
		}
		if v *= v; v > best*s.weight[p] {
			place, best = p, v/s.weight[p]
		}
	}
	if place < 0 {
		return -1, 0
	}
	if j := s.head[place]; s.x[j] < s.lo[j] {
		return place, s.lo[j]
	} else {
		return place, s.up[j]
	}
}

// settleAt puts a variable that has left the basis at its bound.
func (s *simplex) settleAt(j int, target float64) {
	s.x[j] = target
	switch {
	case s.fixed(j):
		s.at[j] = held
	case target == s.lo[j]:
		s.at[j] = atLower
	default:
		s.at[j] = atUpper
	}
}

// flip takes the variables that the ratio test passed to their other bounds.
func (s *simplex) flip() {
	if len(s.flips) == 0 {
		return
	}
	v := s.tau
	clear(v)
	for _, j := range s.flips {
		was := s.x[j]
		s.at[j] = atLower + atUpper - s.at[j]
		s.x[j] = s.seat(int(j))
		s.spread(v, int(j), s.x[j]-was)
	}
	s.fac.forward(v)
	for p, j := range s.head {
		s.x[j] -= v[p]
	}
}

// move changes the value of a variable that is not basic, and of the basic ones with it.
func (s *simplex) move(j int, by float64) {
	s.x[j] += by
	for p, k := range s.head {
		if v := s.alpha[p]; v != 0 {
			s.x[k] -= by * v
		}
	}
}

// exchange lets a variable into the basis in a place. rho, row and alpha are up to date;
// step is what its reduced cost comes to per unit of the pivot.
func (s *simplex) exchange(place, enters int, step float64) {
	for _, j := range s.row.list {
		s.d[j] -= step * s.row.val[j]
	}
	s.d[s.head[place]], s.d[enters] = -step, 0
	s.steepen(place)
	s.fac.exchange(place, s.alpha)
	s.head[place], s.at[enters] = int32(enters), basic
}

// steepen brings the weights of steepest edges up to date (Forrest and Goldfarb 1992;
// from memory).
func (s *simplex) steepen(place int) {
	own := 0.0
	for i, v := range s.rho {
		own += v * v
		s.tau[i] = v
	}
	s.fac.forward(s.tau)
	pivot := s.alpha[place]
	for p, v := range s.alpha {
		if v != 0 && p != place {
			k := v / pivot
			s.weight[p] = max(s.weight[p]+k*(k*own-2*s.tau[p]), 1e-4)
		}
	}
	s.weight[place] = max(own/(pivot*pivot), 1e-4)
}
