package solver

import (
	"cmp"
	"math"
	"slices"
)

// mostJudges is how many bounds a partial pick is held against.
const mostJudges = 4

// judge is a bound on what a partial pick comes to in the end: the Lagrangian with some
// multipliers, and for what is still to be picked a table of the least that it comes to
// within what is left of one row. The first judge prices all rows and has one cell.
type judge struct {
	y     *duals
	b     *bound
	dim   int   // of the row that is kept whole; -1: none
	unit  int64 // what is taken up of it is counted in, rounded down
	units int   // room for so many
	table [][]float64
	early [][]float64 // per bit and stage, what the links of its switch before that stage come to
	price []float64   // per dim
}

// missed is what a choice that does not need a switch misses of the switch's links.
type missed struct {
	bit int
	by  float64
}

// tableUnits is into how many units the room in a row is divided at most.
const tableUnits = 600

// findJudges makes the bounds: all rows priced, then each of the tight rows that most groups
// take part in kept whole. False: a row leaves no room.
func (l *layering) findJudges(y *duals) bool {
	in := l.in
	l.judges = append(l.judges, judge{y: y, dim: -1})
	for x := range l.dims {
		if r := l.dims[x].row; r >= 0 && in.rows[r].dense && y.row[r] > 0 && len(l.judges) < mostJudges {
			l.judges = append(l.judges, judge{y: in.unpriced(y, r), dim: x})
		}
	}
	for n := range l.judges {
		j := &l.judges[n]
		j.b = in.priced(l.d, j.y, true)
		l.priceChoices(n)
		l.priceDims(j)
		if !l.hold(j) {
			return false
		}
		l.fillTable(n)
	}
	for i := range l.stages {
		slices.SortStableFunc(l.stages[i].choices, func(a, c choice) int { return cmp.Compare(a.rc[0], c.rc[0]) })
	}
	return true
}

// unpriced are the multipliers without one for row r. Where charges count in it, what
// switches are shared by is worth less by as much.
func (in *instance) unpriced(y *duals, r int) *duals {
	out := y.without(r)
	if !in.rows[r].charges {
		return out
	}
	a := in.rows[r].account
	part := in.worth(out, true)[a] / in.worth(y, true)[a]
	out.link, out.min = slices.Clone(y.link), slices.Clone(y.min)
	for x, k := range in.links {
		if in.switches[k.sw].account == a {
			out.link[x] *= part
		}
	}
	for h := range out.min {
		if in.switches[h].account == a {
			out.min[h] *= part
		}
	}
	return out
}

// priceChoices works out what every choice costs by a judge, and what it misses of links.
func (l *layering) priceChoices(n int) {
	in, j := l.in, &l.judges[n]
	links := make([][]int, len(in.blocks)) // of the groups, to switches that have a bit and are open
	for x, k := range in.links {
		if k.group < len(in.groups) && l.bit[k.sw] >= 0 && l.d.y[k.sw] == open && j.y.link[x] > 0 {
			links[in.blockOf[k.group]] = append(links[in.blockOf[k.group]], x)
		}
	}
	j.early = make([][]float64, len(l.sw))
	for b := range j.early {
		j.early[b] = make([]float64, len(l.stages)+1)
	}
	for i := range l.stages {
		s := &l.stages[i]
		for b := range j.early {
			j.early[b][i+1] = j.early[b][i]
		}
		for _, x := range links[s.block] {
			j.early[l.bit[in.links[x].sw]][i+1] += j.y.link[x]
		}
		for c := range s.choices {
			k := &s.choices[c]
			k.rc[n] = 0
			for _, q := range k.cols {
				k.rc[n] += j.b.rc[q]
			}
			for _, x := range links[s.block] {
				if !slices.ContainsFunc(k.cols, func(q int) bool { return contains(in.cols[q].links, x) }) {
					k.miss[n] = append(k.miss[n], missed{l.bit[in.links[x].sw], j.y.link[x]})
				}
			}
		}
	}
}

// priceDims is what a unit of each dim is worth to the judge.
func (l *layering) priceDims(j *judge) {
	in := l.in
	j.price = make([]float64, len(l.dims))
	worth := in.worth(j.y, true)
	for x := range l.dims {
		if r := l.dims[x].row; r >= 0 {
			j.price[x] = j.y.row[r]
			continue
		}
		h := l.dims[x].sw
		j.price[x] = math.Min(j.y.min[h], worth[in.switches[h].account])
	}
}
