package solver

import (
	"math"
)

// relaxation is the outcome of the linear relaxation of one domain.
type relaxation struct {
	x     []float64 // per column
	y     []float64 // per switch
	duals *duals
	bound *bound
	combo [][]combo // per block, with weight > 0
	value float64   // of the LP, charges of settled switches included
	slack float64   // sum of rows exceeded, each in its own scale
}

// combo is one pick of a block and its weight in the LP.
type combo struct {
	cols   []int
	weight float64
}

// master builds the linear programs of a domain: one variable per pick in the
// pool, per open switch, per minimum, and per row a slack that is paid dearly, so
// that it always has a solution.
type master struct {
	in    *instance
	d     *domain
	costs bool
	pool  *pool

	lin    linear
	conv   []int // per block, its row
	rowAt  []int // per row of the instance, -1 if nothing can break it
	linkAt []int
	minAt  []int
	needAt []int
	yAt    []int // variable per switch, -1 if settled
	tAt    []int
	scale  []float64
	vars   []variable
	slack  []int // variables that are slacks
}

type variable struct {
	block int
	cols  []int
}

// relax solves the relaxation of d, pricing picks in until none improves it. It
// gives up pricing, not correctness, after a number of rounds. The pool is
// extended. upper is what a bound must reach to end early.
func (in *instance) relax(d *domain, start *duals, p *pool, costs bool, upper int64) (*relaxation, error) {
	return in.relaxRounds(d, start, p, costs, upper, 60)
}

// relaxRounds does it with a number of rounds of pricing at most.
func (in *instance) relaxRounds(d *domain, start *duals, p *pool, costs bool, upper int64, rounds int) (*relaxation, error) {
	if start == nil {
		start = in.zeroDuals()
	}
	in.seed(p, d, in.lagrangian(d, start, costs))
	var best *relaxation
	for range rounds {
		m := &master{in: in, d: d, costs: costs, pool: p}
		r, err := m.solve()
		if err != nil || r == nil {
			return best, err // the engine failed: what is in hand still holds
		}
		priced := in.price(p, d, r.bound)
		if best != nil && best.bound.value > r.bound.value {
			r.bound, r.duals = best.bound, best.duals
		}
		best = r
		// Money is in whole units: a bound within half of one of the LP's value
		// is as good as it gets.
		if !priced || in.halt() || best.bound.prune(upper) || (costs && best.bound.value > r.value-0.5) {
			break
		}
	}
	return best, nil
}

func (m *master) solve() (*relaxation, error) {
	m.build()
	sol, ok, err := m.lin.solve()
	if err != nil || !ok {
		return nil, err
	}
	r := &relaxation{x: make([]float64, len(m.in.cols)), y: make([]float64, len(m.in.switches)), combo: make([][]combo, len(m.in.blocks))}
	for v, w := range sol.x[:len(m.vars)] {
		if w < 1e-9 {
			continue
		}
		k := m.vars[v]
		r.combo[k.block] = append(r.combo[k.block], combo{k.cols, w})
		for _, c := range k.cols {
			r.x[c] += w
		}
	}
	for h, v := range m.yAt {
		switch {
		case v >= 0:
			r.y[h] = sol.x[v]
		case m.d.y[h] == on:
			r.y[h] = 1
		}
	}
	r.value = sol.value + m.settled()
	for _, v := range m.slack {
		r.slack += sol.x[v]
	}
	r.duals = m.duals(sol.dual)
	r.bound = m.in.lagrangian(m.d, r.duals, m.costs)
	return r, nil
}

// settled is the fixed charges of switches that are on.
func (m *master) settled() float64 {
	sum := 0.0
	if m.costs && m.in.charged {
		for h := range m.in.switches {
			if m.d.y[h] == on {
				sum += float64(m.in.switches[h].fixed)
			}
		}
	}
	return sum
}

// duals turns the LP's row duals into multipliers of the instance; a sign that
// only rounding can have produced is cut off.
func (m *master) duals(dual []float64) *duals {
	y := m.in.zeroDuals()
	get := func(at int) float64 {
		if at < 0 {
			return 0
		}
		return math.Max(0, -dual[at])
	}
	for r := range y.row {
		y.row[r] = get(m.rowAt[r]) / m.scale[r]
	}
	for l := range y.link {
		y.link[l] = get(m.linkAt[l])
	}
	for h := range y.min {
		if m.minAt[h] >= 0 {
			y.min[h] = get(m.minAt[h]) / float64(m.in.switches[h].minimum)
		}
	}
	for i := range y.need {
		y.need[i] = get(m.needAt[i])
	}
	return y
}
