package solver

import "math"

// entering is the variable that comes in for one that leaves at a bound, and the step of
// the dual method; -1 where none can. Variables with two bounds are passed as long as
// that leaves the other beyond its bound: they are listed in flips. Among those whose
// reduced costs come to nothing at about the same time it takes the largest pivot, and
// shifts the costs of those that would come out on the wrong side.
func (s *simplex) entering(leaves int, target float64) (enters int, step float64) {
	sign, slope := 1.0, s.x[leaves]-target
	if slope < 0 {
		sign, slope = -1, -slope
	}
	left := s.candidates(sign)
	s.flips = s.flips[:0]
	for len(left) > 0 {
		near, far, gain := s.nearest(left)
		if slope-gain <= primalTolerance {
			return s.largest(near, sign)
		}
		slope -= gain
		s.flips = append(s.flips, near...)
		left = far
	}
	return -1, 0
}

// candidates are the variables whose reduced costs the step takes towards nothing.
func (s *simplex) candidates(sign float64) []int32 {
	var out []int32
	for _, j := range s.row.list {
		v := sign * s.row.val[j]
		if (v > 1e-9 && s.at[j] == atLower) || (v < -1e-9 && s.at[j] == atUpper) {
			out = append(out, j)
		}
	}
	return out
}

// ratio is how far the step may go until the reduced cost of a variable has come to
// nothing, and beyond it by slack.
func (s *simplex) ratio(j int32, slack float64) float64 {
	return (max(0, -s.wrong(int(j))) + slack) / math.Abs(s.row.val[j])
}

// nearest parts off the candidates that come to nothing first, and says what passing
// them takes off the slope.
func (s *simplex) nearest(list []int32) (near, far []int32, gain float64) {
	limit := math.Inf(1)
	for _, j := range list {
		limit = min(limit, s.ratio(j, dualTolerance))
	}
	at := 0
	for n, j := range list {
		if s.ratio(j, 0) <= limit {
			gain += math.Abs(s.row.val[j]) * (s.up[j] - s.lo[j])
			list[at], list[n] = j, list[at]
			at++
		}
	}
	return list[:at], list[at:], gain
}

func (s *simplex) largest(near []int32, sign float64) (enters int, step float64) {
	best := near[0]
	for _, j := range near {
		if math.Abs(s.row.val[j]) > math.Abs(s.row.val[best]) {
			best = j
		}
	}
	t := s.ratio(best, 0)
	step = sign * t
	for _, j := range near {
		// the one that comes in comes to nothing exactly, and none changes its sign
		if after := s.d[j] - step*s.row.val[j]; j == best || (after < 0) == (s.at[j] == atLower) {
			s.shifted[j] -= after
			s.d[j] -= after
		}
	}
	return int(best), step
}
