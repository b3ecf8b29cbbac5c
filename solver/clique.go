package solver

import "math"

// others is, per class, a lower bound of what the other groups add beside it:
// of each, the least class that goes together with it. With two groups it is
// exact. Infinite where some group has none. Once time is up, it is the least class
// there is.
func (r *ranking) others() []float64 {
	rest := make([]float64, len(r.b.classes))
	late := false
	for k := range rest {
		if r.at[k] < 0 {
			rest[k] = math.Inf(1)
			continue
		}
		late = late || k%haltEvery == 0 && r.b.halt()
		for j, list := range r.order {
			if j == r.b.groupOf[k] {
				continue
			}
			v := math.Inf(1)
			for _, l := range list {
				if late || r.b.goes[k].has(l) {
					v = r.least[l]
					break
				}
			}
			rest[k] += v
		}
	}
	return rest
}

// cliqueSearch looks for the pick of one class per group, all going together,
// with the least sum below a limit.
type cliqueSearch struct {
	r     *ranking
	best  float64
	pick  []int
	found []int
	left  []float64 // per group, the least the groups from it on can add
	nodes int
}

// mostNodes bounds one search of a block.
const mostNodes = 20000

// cheapest is the pick of least sum below a limit, as columns, with class k in
// it unless k < 0. exact says that none is cheaper; else the search was cut off.
func (r *ranking) cheapest(k int, below float64) (sum float64, cols []int, exact bool) {
	s := &cliqueSearch{
		r:     r,
		best:  below,
		pick:  make([]int, len(r.order)),
		left:  make([]float64, len(r.order)+1),
		nodes: mostNodes,
	}
	if r.b.halt() {
		s.nodes = 0
	}
	allowed := fullBits(len(r.b.classes))
	fixed := -1
	if k >= 0 {
		fixed = r.b.groupOf[k]
		allowed = r.b.goes[k].clone()
		allowed.add(k)
	}
	for j := len(r.order) - 1; j >= 0; j-- {
		v := math.Inf(1)
		if j == fixed {
			v = r.least[k]
		} else if len(r.order[j]) > 0 {
			v = r.least[r.order[j][0]]
		}
		s.left[j] = s.left[j+1] + v
	}
	s.walk(0, 0, allowed)
	if s.found == nil {
		return math.Inf(1), nil, s.nodes > 0
	}
	for _, c := range s.found {
		cols = append(cols, r.at[c])
	}
	return s.best, cols, s.nodes > 0
}

func (s *cliqueSearch) walk(j int, sum float64, allowed bits) {
	if j == len(s.pick) {
		s.best, s.found = sum, append(s.found[:0], s.pick...)
		return
	}
	var next bits
	for _, k := range s.r.order[j] {
		v := sum + s.r.least[k]
		if v+s.left[j+1] >= s.best || s.nodes <= 0 {
			return
		}
		if !allowed.has(k) {
			continue
		}
		s.nodes--
		s.pick[j] = k
		if j+1 == len(s.pick) {
			s.walk(j+1, v, nil)
			continue
		}
		if next == nil {
			next = make(bits, len(allowed))
		}
		for i := range next {
			next[i] = allowed[i] & s.r.b.goes[k][i]
		}
		s.walk(j+1, v, next)
	}
}

// bound is a lower bound of the sum of any pick, and the best pick seen.
func (r *ranking) bound() (float64, []int) {
	for _, list := range r.order {
		if len(list) == 0 {
			return math.Inf(1), nil
		}
	}
	sum, cols, exact := r.cheapest(-1, math.Inf(1))
	if exact {
		return sum, cols
	}
	rest := r.others()
	v := math.Inf(1)
	for _, k := range r.order[0] {
		v = math.Min(v, r.least[k]+rest[k])
	}
	return v, cols
}
