package solver

import "math"

// refactor eliminates the basis anew; columns that depend on others leave it.
func (s *simplex) refactor() bool {
	weight := make([]float64, s.variables())
	for p, j := range s.head {
		weight[j] = s.weight[p]
	}
	col := func(p int) ([]int32, []float64) { return s.cols.list(int(s.head[p])) }
	was := append([]int32(nil), s.head...)
	for range 3 {
		left := s.fac.build(s.m, s.head, col)
		if len(left) == 0 {
			for p, j := range s.head {
				s.weight[p] = weight[j]
			}
			return true
		}
		for _, i := range left {
			s.head[i] = i
		}
		s.reseat(was)
		copy(was, s.head)
		for i := range weight {
			weight[i] = 1
		}
	}
	return false
}

// reseat takes variables that are not basic any more to their bounds.
func (s *simplex) reseat(was []int32) {
	for _, j := range was {
		s.at[j] = s.side(int(j))
	}
	for _, j := range s.head {
		s.at[j] = basic
	}
}

// side is where a variable is that has just stopped being basic, or is new.
func (s *simplex) side(j int) int8 {
	switch {
	case s.fixed(j):
		return held
	case math.IsInf(s.lo[j], -1):
		return atUpper
	}
	return atLower
}

// seat is the value of a variable at its bound.
func (s *simplex) seat(j int) float64 {
	if s.at[j] == atUpper {
		return s.up[j]
	}
	return s.lo[j]
}

// values works out the values of the basic variables.
func (s *simplex) values() {
	v := s.tau
	clear(v)
	for j := range s.variables() {
		if s.at[j] == basic {
			continue
		}
		if s.x[j] = s.seat(j); s.x[j] != 0 {
			s.spread(v, j, -s.x[j])
		}
	}
	s.fac.forward(v)
	for p, j := range s.head {
		s.x[j] = v[p]
	}
}

// spread adds a multiple of a variable's column to v.
func (s *simplex) spread(v []float64, j int, by float64) {
	at, val := s.cols.list(j)
	for n, i := range at {
		v[i] += by * val[n]
	}
}

// prices works out multipliers and reduced costs.
func (s *simplex) prices() {
	for p, j := range s.head {
		s.y[p] = s.shifted[j]
	}
	s.fac.backward(s.y)
	for j := range s.variables() {
		if s.d[j] = 0; s.at[j] < basic {
			s.d[j] = s.shifted[j] - s.dot(s.y, j)
		}
	}
}

func (s *simplex) dot(v []float64, j int) float64 {
	at, val := s.cols.list(j)
	sum := 0.0
	for n, i := range at {
		sum += v[i] * val[n]
	}
	return sum
}
