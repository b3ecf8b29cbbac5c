package solver

import (
	"math"
	"slices"
)

// offers are, for one set of reduced costs, the least of every cell and what the blocks
// offer.
type offers struct {
	least []float64 // per cell
	steps [][]step  // per block, by rising size and falling cost
}

// step is what the cheapest of a block's choices that take up no more than so many units
// costs.
type step struct {
	size int
	cost float64
}

func (k *knapsack) price(d *domain, rc []float64) *offers {
	p := &offers{least: make([]float64, len(k.cells)), steps: make([][]step, len(k.parts))}
	for x := range k.cells {
		p.least[x] = math.Inf(1)
		for _, c := range k.cells[x].cols {
			if d.alive.has(c) {
				p.least[x] = min(p.least[x], rc[c])
			}
		}
	}
	cheapest := make([]float64, k.units+1) // per size
	for i := range cheapest {
		cheapest[i] = math.Inf(1)
	}
	for i := range k.parts {
		p.steps[i] = k.stair(&k.parts[i], p.least, cheapest)
	}
	return p
}

// stair is what a block offers. It uses cheapest, and leaves it as it was: infinite.
func (k *knapsack) stair(s *sack, least, cheapest []float64) (out []step) {
	var sizes []int
	for n, size := range s.size {
		v := sum(least, s.cells(n))
		if math.IsInf(cheapest[size], 1) && !math.IsInf(v, 1) {
			sizes = append(sizes, size)
		}
		cheapest[size] = min(cheapest[size], v)
	}
	slices.Sort(sizes)
	best := math.Inf(1)
	for _, size := range sizes {
		if cheapest[size] < best {
			best = cheapest[size]
			out = append(out, step{size, best})
		}
		cheapest[size] = math.Inf(1)
	}
	return out
}

func sum(of []float64, cells []int32) (v float64) {
	for _, x := range cells {
		v += of[x]
	}
	return v
}

// table is, after every block, the least cost of picks of the blocks so far that take up
// no more than so many units.
func (k *knapsack) table(p *offers, backward bool) [][]float64 {
	n := len(k.parts)
	out := make([][]float64, n+1)
	all := make([]float64, (n+1)*(k.units+1))
	for i := range out {
		out[i] = all[i*(k.units+1) : (i+1)*(k.units+1)]
	}
	for i := range n {
		from, to, steps := out[i], out[i+1], p.steps[i]
		if backward {
			from, to, steps = out[n-i], out[n-i-1], p.steps[n-1-i]
		}
		add(to, from, steps)
	}
	return out
}

// add makes the table with one more block.
func add(to, from []float64, steps []step) {
	for u := range to {
		to[u] = math.Inf(1)
	}
	for _, t := range steps {
		part := to[t.size:]
		for u, v := range from[:len(part)] {
			if v += t.cost; v < part[u] {
				part[u] = v
			}
		}
	}
}

// bound is the bound of a domain, that of the knapsack or within it, for any multipliers.
func (k *knapsack) bound(d *domain, y *duals) *bound {
	b := k.in.priced(d, y, true)
	b.kept, b.offers = k, k.price(d, b.rc)
	b.before = k.table(b.offers, false)
	b.value += b.before[len(k.parts)][k.units]
	return b
}

// deltas is, per column alive, how much the bound rises if that column is picked: what
// the blocks before and after it need at least beside it.
func (k *knapsack) deltas(d *domain, b *bound) []float64 {
	delta := make([]float64, len(k.in.cols))
	for c := range delta {
		delta[c] = math.Inf(1) // in no choice
	}
	p := k.price(d, b.rc)
	before, after := k.table(p, false), k.table(p, true)
	least := before[len(k.parts)][k.units]
	with := make([]float64, len(k.cells)) // per cell, the least with it
	for x := range with {
		with[x] = math.Inf(1)
	}
	for i := range k.parts {
		k.parts[i].around(p.least, before[i], after[i+1], with)
	}
	for x := range k.cells {
		for _, c := range k.cells[x].cols {
			if d.alive.has(c) {
				delta[c] = max(0, with[x]+(b.rc[c]-p.least[x])-least)
			}
		}
	}
	return delta
}

// around finds, for every cell of a block, the least that all blocks come to with it.
func (s *sack) around(least, before, after, with []float64) {
	units := len(before) - 1
	beside := make([]float64, units+1) // per size, what the other blocks come to
	for u := range beside {
		beside[u] = math.NaN()
	}
	for n, size := range s.size {
		if math.IsNaN(beside[size]) {
			beside[size] = leastOfTwo(before, after, units-size)
		}
		v := beside[size] + sum(least, s.cells(n))
		for _, x := range s.cells(n) {
			with[x] = min(with[x], v)
		}
	}
}

// leastOfTwo is the least that two tables come to within so many units.
func leastOfTwo(a, b []float64, units int) float64 {
	least := math.Inf(1)
	for u := range units + 1 {
		least = min(least, a[u]+b[units-u])
	}
	return least
}
