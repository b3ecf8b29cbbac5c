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
	slack float64   // sum of rows exceeded, each in its own scale
}

// combo is one pick of a block and its weight in the LP.
type combo struct {
	cols   []int
	weight float64
}

// master builds the linear programs of a domain: one variable per column of a
// single group and per combination of columns of a larger block that has been
// priced in so far, per open switch, per minimum, and per row a slack that is
// paid dearly, so that it always has a solution.
type master struct {
	in    *instance
	d     *domain
	costs bool
	pool  [][][]int // per larger block, combinations

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

// relax solves the relaxation of d, pricing combinations of blocks in until none
// improves it. It gives up pricing, not correctness, after a number of rounds.
// pool is extended. upper is what a bound must reach to end early.
func (in *instance) relax(d *domain, start *duals, pool [][][]int, costs bool, upper int64) (*relaxation, error) {
	in.seedPool(d, start, pool, costs)
	var best *relaxation
	for round := 0; round < 40; round++ {
		m := &master{in: in, d: d, costs: costs, pool: pool}
		r, err := m.solve()
		if err != nil || r == nil {
			return best, err // the engine failed: what is in hand still holds
		}
		priced := m.price(r, pool)
		if best != nil && best.bound.value > r.bound.value {
			r.bound, r.duals = best.bound, best.duals
		}
		best = r
		if !priced || best.bound.prune(upper) {
			break
		}
	}
	return best, nil
}

// seedPool gives every larger block at least one combination.
func (in *instance) seedPool(d *domain, start *duals, pool [][][]int, costs bool) {
	needs := false
	for i := range in.blocks {
		if in.blocks[i].windows == nil {
			continue
		}
		usable := false
		for _, combo := range pool[i] {
			usable = usable || in.aliveAll(d, combo)
		}
		needs = needs || !usable
	}
	if !needs && start == nil {
		return
	}
	if start == nil {
		start = in.zeroDuals()
	}
	b := in.lagrangian(d, start, costs)
	for i := range in.blocks {
		if in.blocks[i].windows != nil && b.best[i] != nil {
			pool[i] = addCombo(pool[i], b.best[i])
		}
	}
}

func (in *instance) aliveAll(d *domain, cols []int) bool {
	for _, c := range cols {
		if !d.alive.has(c) {
			return false
		}
	}
	return true
}

func addCombo(pool [][]int, combo []int) [][]int {
	for _, have := range pool {
		same := true
		for i, c := range have {
			same = same && combo[i] == c
		}
		if same {
			return pool
		}
	}
	return append(pool, append([]int(nil), combo...))
}

// price adds, for every larger block, the combination of least reduced cost in
// each window that improves the LP, a few at most. It says whether any did.
func (m *master) price(r *relaxation, pool [][][]int) bool {
	added := false
	for i := range m.in.blocks {
		blk := &m.in.blocks[i]
		if blk.windows == nil || m.conv[i] < 0 {
			continue
		}
		have := math.Inf(1) // least reduced cost among those in the LP
		for _, combo := range pool[i] {
			if m.in.aliveAll(m.d, combo) {
				sum := 0.0
				for _, c := range combo {
					sum += r.bound.rc[c]
				}
				have = min(have, sum)
			}
		}
		for n, w := 0, 0; w < len(blk.windows) && n < 8; w++ {
			sum, pick := 0.0, make([]int, 0, len(blk.groups))
			for _, list := range blk.windows[w] {
				v, at := leastOf(list, m.d, r.bound.rc)
				sum += v
				pick = append(pick, at)
			}
			if sum < have-1e-6*(1+math.Abs(have)) {
				before := len(pool[i])
				pool[i] = addCombo(pool[i], pick)
				if len(pool[i]) > before {
					added = true
					n++
				}
			}
		}
	}
	return added
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
	for _, v := range m.slack {
		r.slack += sol.x[v]
	}
	r.duals = m.duals(sol.dual)
	r.bound = m.in.lagrangian(m.d, r.duals, m.costs)
	return r, nil
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
