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

// master is the linear program of a domain and of the domains within it: one
// variable per pick in the pool, per open switch, per minimum, and per row a slack
// that is paid dearly, so that it always has a solution. It stays in the engine:
// a domain within the first one differs by bounds alone, and is solved from the
// basis of the one before.
type master struct {
	in     *instance
	d      *domain // a copy: the widest of the domains
	costs  bool
	pool   *pool
	dearer float64 // how many times as dear as usual exceeding a row is

	lin    linear
	engine loaded
	conv   []int // per block, its row
	rowAt  []int // per row of the instance, -1 if nothing can break it
	linkAt []int
	minAt  []int
	needAt []int
	yAt    []int // variable per switch, -1 if settled
	tAt    []int
	vars   []variable
	taken  []int     // per block, how many picks of the pool have been looked at
	sum    []float64 // scratch, all zero
	slack  []int     // variables that are slacks
}

// variable is the one of a pick, and its place in the linear program.
type variable struct {
	block int
	cols  []int
	at    int
}

// newMaster is for d as it is now; the pool is extended. It has to be closed.
func (in *instance) newMaster(d *domain, p *pool, costs bool) *master {
	return &master{in: in, d: d.clone(), costs: costs, pool: p, dearer: 1, taken: make([]int, len(in.blocks))}
}

func (m *master) close() {
	if m.engine != nil {
		m.engine.close()
	}
}

// allRounds is how often a relaxation prices picks in before it leaves it at that.
const allRounds = 60

// relax solves the relaxation of d, which is the master's domain or within it,
// pricing picks in until none improves it. It gives up pricing, not correctness,
// after a number of rounds. upper is what a bound must reach to end early. Nil if
// the engine fails.
func (m *master) relax(d *domain, start *duals, upper int64, rounds int) (*relaxation, error) {
	in := m.in
	if start == nil {
		start = in.zeroDuals()
	}
	in.seed(m.pool, d, in.lagrangian(d, start, m.costs))
	var best *relaxation
	for range rounds {
		if in.halt() {
			break
		}
		r, err := m.solve(d)
		if err != nil || r == nil {
			return best, err // the engine failed: what is in hand still holds
		}
		priced := in.price(m.pool, d, r.bound)
		if best != nil && best.bound.value > r.bound.value {
			r.bound, r.duals = best.bound, best.duals
		}
		best = r
		// Money is in whole units: a bound within half of one of the LP's value
		// is as good as it gets.
		if !priced || in.halt() || best.bound.prune(upper) || (m.costs && best.bound.value > r.value-0.5) {
			break
		}
	}
	return best, nil
}

func (m *master) solve(d *domain) (*relaxation, error) {
	sol, ok, err := m.optimum(d)
	if err != nil || !ok {
		return nil, err
	}
	r := &relaxation{
		x:     make([]float64, len(m.in.cols)),
		y:     make([]float64, len(m.in.switches)),
		combo: make([][]combo, len(m.in.blocks)),
	}
	for _, k := range m.vars {
		w := sol.x[k.at]
		if w < 1e-9 {
			continue
		}
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
	r.bound = m.in.lagrangian(d, r.duals, m.costs)
	return r, nil
}

// optimum brings the linear program up to date with the pool, sets the bounds
// that d asks for, and solves it: in the engine, or anew if that fails.
func (m *master) optimum(d *domain) (sol solution, ok bool, err error) {
	if m.conv == nil {
		m.build()
	} else {
		m.takePicks()
	}
	m.confine(d)
	if err := m.lin.check(); err != nil {
		return sol, false, err
	}
	if m.engine == nil {
		m.engine = m.in.without.solves().load(&m.lin)
	}
	sol, ok = m.engine.resolve(m.in.halt)
	if ok = ok && sol.finite(); ok || m.in.halt() {
		return sol, ok, nil
	}
	return m.lin.solve(m.in.without.solves())
}

// confine sets the bounds of variables to what d leaves possible.
func (m *master) confine(d *domain) {
	for _, k := range m.vars {
		m.lin.up[k.at] = 0
		if m.in.aliveAll(d, k.cols) {
			m.lin.up[k.at] = math.Inf(1)
		}
	}
	for h, v := range m.yAt {
		if v < 0 {
			continue
		}
		m.lin.lo[v], m.lin.up[v] = 0, 1
		switch d.y[h] {
		case off:
			m.lin.up[v] = 0
		case on:
			m.lin.lo[v] = 1
		}
	}
}

// settled is the fixed charges that switches that are on put into the objective.
func (m *master) settled() float64 {
	sum := 0.0
	if m.costs {
		for h := range m.in.switches {
			if m.d.y[h] == on && m.in.objective(h) {
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
		y.row[r] = get(m.rowAt[r]) / m.in.scale[r]
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
