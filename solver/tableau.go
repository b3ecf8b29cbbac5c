package solver

import (
	"cmp"
	"math"
	"slices"
)

// fineness is how many parts one whole of a multiplier is divided in.
const fineness = 1 << 38

// mostUndecided is how many rows of the tableau are looked at.
const mostUndecided = 40

// combinations are those of the tableau: for every column or switch that the linear program
// leaves undecided, the multiples of the rows that add up to it and to what is at its bounds,
// the most undecided first.
func (m *master) combinations(s *simplex) (out []*combination) {
	type undecided struct {
		place int
		by    float64
	}
	var list []undecided
	whole, weights := m.wholeVars(), m.in.weights()
	for p, j := range s.head {
		k := int(j) - s.m
		if k < 0 || !whole[k] {
			continue
		}
		x := s.x[j] * s.colScale[k]
		if v := math.Min(x, 1-x); v > leastRest {
			list = append(list, undecided{p, v})
		}
	}
	slices.SortStableFunc(list, func(a, b undecided) int { return cmp.Compare(b.by, a.by) })
	for _, u := range list[:min(mostUndecided, len(list))] {
		if k := m.combination(s.multiples(u.place)); weights.of(k) < mostSum {
			out = append(out, k)
		}
	}
	return out
}

// wholeVars says of the variables which stand for something that is there or not.
func (m *master) wholeVars() []bool {
	out := make([]bool, len(m.lin.cols))
	for _, k := range m.vars {
		out[k.at] = true
	}
	for _, v := range m.yAt {
		if v >= 0 {
			out[v] = true
		}
	}
	return out
}

// multiples of the linear program's rows that add up to the row of the tableau of a place.
func (s *simplex) multiples(place int) []float64 {
	v := make([]float64, s.m)
	v[place] = 1
	s.fac.backward(v)
	scale := s.colScale[int(s.head[place])-s.m]
	for i := range v {
		v[i] *= s.rowScale[i] * scale
	}
	return v
}

// combination puts multiples of the linear program's rows into whole ones of the instance's.
// Every group is a block by itself.
func (m *master) combination(by []float64) *combination {
	in := m.in
	k := in.newCombination()
	get := func(at int, scale float64) int64 {
		if at < 0 {
			return 0
		}
		v := fineness * by[at] / scale
		if !(math.Abs(v) <= mostSum) {
			return math.MaxInt64 // too much, or no number: the combination is too large
		}
		return int64(math.Round(v))
	}
	for i := range k.row {
		k.row[i] = get(m.rowAt[i], in.scale[i])
	}
	for i := range k.link {
		k.link[i] = get(m.linkAt[i], 1)
	}
	for h := range k.min {
		if m.minAt[h] >= 0 {
			k.min[h] = get(m.minAt[h], float64(in.switches[h].minimum))
		}
	}
	for i := range k.need {
		k.need[i] = get(m.needAt[i], 1)
	}
	for g := range in.groups {
		k.group[g] = get(m.conv[g], 1)
	}
	return k
}
