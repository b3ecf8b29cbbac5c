package solver

import "math"

// primal makes a basis that is feasible optimal. False: it is time to give up.
func (s *simplex) primal(halt func() bool) bool {
	s.devex = s.devex[:0]
	for range s.variables() {
		s.devex = append(s.devex, 1)
	}
	for ; s.steps > 0; s.steps-- {
		if s.steps%64 == 0 && halt() {
			return false
		}
		if s.fac.worn() && !s.refresh() {
			return false
		}
		enters := s.improving()
		if enters < 0 {
			return true
		}
		s.column(s.alpha, enters)
		way := 1.0
		if s.at[enters] == atUpper {
			way = -1
		}
		place, step := s.blocking(way)
		if reach := s.up[enters] - s.lo[enters]; reach <= step {
			if math.IsInf(reach, 1) {
				return false // without end: costs and bounds don't allow it
			}
			s.move(enters, way*reach)
			s.at[enters] = atLower + atUpper - s.at[enters]
			continue
		}
		s.priceRow(place)
		if !s.agrees(place, enters) {
			if len(s.fac.place) == 0 {
				s.devex[enters] = math.Inf(1) // not this one
				continue
			}
			if !s.refresh() {
				return false
			}
			continue
		}
		leaves := int(s.head[place])
		target := s.lo[leaves]
		if way*s.alpha[place] < 0 {
			target = s.up[leaves]
		}
		s.reference(place, enters, leaves)
		s.move(enters, way*step)
		s.exchange(place, enters, s.d[enters]/s.alpha[place])
		s.settleAt(leaves, target)
	}
	return false
}

// improving is the variable that promises most, -1 where none improves.
func (s *simplex) improving() int {
	enters, best := -1, 0.0
	for j := range s.variables() {
		v := s.wrong(j)
		if v <= dualTolerance {
			continue
		}
		if v *= v; v > best*s.devex[j] {
			enters, best = j, v/s.devex[j]
		}
	}
	return enters
}

// blocking is the place that ends a step of the variable whose column is in alpha, and
// the step; infinite where none does. Of those that come to their bounds at about the same
// time it is the one with the largest pivot.
func (s *simplex) blocking(way float64) (place int, step float64) {
	limit := math.Inf(1)
	for p, v := range s.alpha {
		if v = way * v; v > 1e-9 || v < -1e-9 {
			limit = min(limit, (s.room(p, v)+primalTolerance)/math.Abs(v))
		}
	}
	place, step = -1, math.Inf(1)
	if math.IsInf(limit, 1) {
		return place, step
	}
	most := 0.0
	for p, v := range s.alpha {
		if v = way * v; v > 1e-9 || v < -1e-9 {
			t := max(0, s.room(p, v)) / math.Abs(v)
			if t <= limit && math.Abs(v) > most {
				place, step, most = p, t, math.Abs(v)
			}
		}
	}
	return place, step
}

// room is how far the variable in a place may go down, or up where v is negative.
func (s *simplex) room(place int, v float64) float64 {
	j := s.head[place]
	if v > 0 {
		return s.x[j] - s.lo[j]
	}
	return s.up[j] - s.x[j]
}

// reference brings the weights of the primal method up to date (Devex: Harris 1973; from
// memory).
func (s *simplex) reference(place, enters, leaves int) {
	own, pivot := s.devex[enters], s.alpha[place]
	for _, j := range s.row.list {
		k := s.row.val[j] / pivot
		s.devex[j] = max(s.devex[j], k*k*own)
	}
	s.devex[leaves] = max(own/(pivot*pivot), 1)
}
