package solver

import (
	"math"
)

// duals are multipliers, none negative, of the rows that couple the groups. Any
// such multipliers give a valid bound (Lagrangian duality), so it does not
// matter how well the LP that suggested them was solved.
type duals struct {
	row  []float64 // of sum <= limit
	link []float64 // of "sum of the group's columns that need the switch" <= y
	min  []float64 // of "minimum*y - loads <= top-up"
	need []float64 // of y_h <= y_n for voluntary switches, in the order of needPairs
}

func (in *instance) zeroDuals() *duals {
	return &duals{
		row:  make([]float64, len(in.rows)),
		link: make([]float64, len(in.links)),
		min:  make([]float64, len(in.switches)),
		need: make([]float64, len(in.needPairs())),
	}
}

// needPairs lists the needs of voluntary switches; those of the others are met
// through the columns.
func (in *instance) needPairs() []link {
	var out []link
	for h := range in.switches {
		if in.switches[h].voluntary {
			for _, n := range in.switches[h].needs {
				out = append(out, link{h, n})
			}
		}
	}
	return out
}

// bound is the Lagrangian of a domain: Value - Err is a proven lower bound of
// the total of every solution in it.
type bound struct {
	value, err float64
	rc         []float64   // reduced cost per column alive
	least      []float64   // least reduced cost per group
	block      []float64   // least per block, within its windows
	best       [][]int     // per block, the columns that give it
	s          []float64   // per switch: what being on adds; open ones count as min(0, s)
	kept       *knapsack   // the row that is not priced, if any
	offers     *offers     // with it: what its blocks offer,
	before     [][]float64 // and what those before each come to
}

// lagrangian evaluates the bound. With costs false all costs and charges count
// as 0: a positive value then proves that the domain holds no solution.
//
// Rounding: each reduced cost and the final sum are sums of products of
// integers below 2^53 and one float, each product rounded once. A sum of n such
// terms is off by at most (n+1) u sum|terms|, u = 2^-53 (Higham, Accuracy and
// Stability of Numerical Algorithms, section 3.1; from memory); err uses twice that.
func (in *instance) lagrangian(d *domain, y *duals, costs bool) *bound {
	b := in.priced(d, y, costs)
	for i := range in.blocks {
		b.block[i], b.best[i] = in.leastOfBlock(d, i, b)
		b.value += b.block[i]
	}
	return b
}

// priced is the bound without what the blocks add to it.
func (in *instance) priced(d *domain, y *duals, costs bool) *bound {
	b := &bound{
		rc:    make([]float64, len(in.cols)),
		least: make([]float64, len(in.groups)),
		block: make([]float64, len(in.blocks)),
		best:  make([][]int, len(in.blocks)),
		s:     make([]float64, len(in.switches)),
	}
	size, terms := 0.0, 0 // sum of absolute terms; longest chain of additions
	value := 0.0
	lambda := in.worth(y, costs)
	for r := range in.rows {
		value -= y.row[r] * float64(in.rows[r].limit)
		size += math.Abs(y.row[r] * float64(in.rows[r].limit))
	}
	for g, span := range in.groups {
		b.least[g] = math.Inf(1)
		most := 0.0
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			rc, abs := in.reduced(c, y, costs, lambda)
			b.rc[c] = rc
			b.least[g] = min(b.least[g], rc)
			most = max(most, abs)
			terms = max(terms, len(in.cols[c].terms)+2*len(in.cols[c].needs)+1)
		}
		size += most
	}
	sValue, sSize, sTerms := in.switchPart(d, y, lambda, b)
	value += sValue
	size += sSize
	n := terms + sTerms + len(in.rows) + 2*len(in.groups) + 4*len(in.blocks) + len(in.switches) + 16
	b.value, b.err = value, 2*float64(n)*0x1p-53*size
	if in.without.cuts {
		b.err = math.Inf(1) // then it proves nothing
	}
	return b
}

// worth is what a charge to each account weighs in the bound.
func (in *instance) worth(y *duals, costs bool) []float64 {
	out := make([]float64, in.accounts)
	if costs && in.charged {
		out[0] = 1
	}
	for r := range in.rows {
		if in.rows[r].charges {
			out[in.rows[r].account] += y.row[r]
		}
	}
	return out
}

func (in *instance) reduced(c int, y *duals, costs bool, lambda []float64) (rc, abs float64) {
	k := &in.cols[c]
	if costs {
		rc = float64(k.cost)
		abs = math.Abs(rc)
	}
	for _, t := range k.terms {
		v := y.row[t.Row] * float64(t.Coef)
		rc += v
		abs += math.Abs(v)
	}
	for _, l := range k.links {
		rc += y.link[l]
		abs += y.link[l]
	}
	for _, l := range k.loads {
		v := math.Min(y.min[l.Switch], lambda[in.switches[l.Switch].account]) * float64(l.Amount)
		rc -= v
		abs += v
	}
	return rc, abs
}

func (in *instance) switchPart(d *domain, y *duals, weight []float64, b *bound) (value, size float64, terms int) {
	for h := range in.switches {
		s := &in.switches[h]
		lambda := weight[s.account]
		mu := math.Min(y.min[h], lambda)
		b.s[h] = lambda*float64(s.fixed) + mu*float64(s.minimum)
		size += math.Abs(lambda*float64(s.fixed)) + mu*float64(s.minimum)
		for _, t := range s.terms {
			v := y.row[t.Row] * float64(t.Coef)
			b.s[h] += v
			size += math.Abs(v)
		}
		terms = max(terms, len(s.terms)+4)
	}
	for l, k := range in.links {
		b.s[k.sw] -= y.link[l]
		size += y.link[l]
	}
	for i, k := range in.needPairs() {
		b.s[k.group] += y.need[i] // the voluntary one
		b.s[k.sw] -= y.need[i]
		size += 2 * y.need[i]
	}
	for h := range in.switches {
		switch d.y[h] {
		case on:
			value += b.s[h]
		case open:
			value += math.Min(0, b.s[h])
		}
	}
	return value, size, terms + len(in.links)
}

// leastOfBlock is the least sum of reduced costs over picks a block allows.
func (in *instance) leastOfBlock(d *domain, i int, b *bound) (float64, []int) {
	blk := &in.blocks[i]
	if blk.single() {
		g := blk.groups[0]
		for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
			if b.rc[c] == b.least[g] {
				return b.least[g], []int{c}
			}
		}
		return math.Inf(1), nil
	}
	return blk.rank(d, b.rc).bound()
}

// prune says whether the bound proves that the domain holds no total below
// upper. Totals are integers, so a bound above upper-1 is enough.
func (b *bound) prune(upper int64) bool {
	return b.value-b.err > float64(upper-1)
}

// lower is the bound as an integer.
func (b *bound) lower() int64 {
	v := math.Ceil(b.value - b.err)
	switch {
	case v >= float64(Limit):
		return Limit
	case v <= -float64(Limit):
		return -Limit
	case math.IsNaN(v):
		return -Limit
	}
	return int64(v)
}
