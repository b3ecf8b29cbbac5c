package solver

import (
	"cmp"
	"math"
	"slices"
)

// improver is a local search: it exchanges the pick of one block at a time, and
// of two blocks where that is cheap, for whatever lowers the total plus a price
// for every unit by which a row is exceeded.
type improver struct {
	in     *instance
	t      *tally
	price  []float64 // per row and unit
	paid   []int     // rows that charges count in
	moves  [][][]int // per block, picks to try, best first
	best   *incumbent
	budget int // exchanges it may still look at
}

// mostMoves bounds the picks of one block that are tried.
const mostMoves = 80

// newImprover prepares moves from a bound: for single groups the columns by
// delta, for larger blocks the best pick around every column.
func (in *instance) newImprover(d *domain, b *bound, y *duals, best *incumbent) *improver {
	im := &improver{in: in, t: in.newTally(), best: best, budget: 200_000}
	delta := in.deltas(d, b)
	im.moves = make([][][]int, len(in.blocks))
	for i := range in.blocks {
		im.moves[i] = in.blockMoves(d, b, delta, i)
	}
	im.prices(y)
	return im
}

func (in *instance) blockMoves(d *domain, b *bound, delta []float64, i int) [][]int {
	blk := &in.blocks[i]
	if blk.single() {
		var cols []int
		g := blk.groups[0]
		for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
			cols = append(cols, c)
		}
		slices.SortStableFunc(cols, func(a, b int) int { return cmp.Compare(delta[a], delta[b]) })
		cols = cols[:min(len(cols), mostMoves)]
		out := make([][]int, len(cols))
		for n := range cols {
			out[n] = cols[n : n+1 : n+1]
		}
		return out
	}
	type move struct {
		delta float64
		cols  []int
	}
	var list []move
	for _, pick := range in.picks(blk, d, b.rc, math.Inf(1), mostMoves/2) {
		sum := -b.block[i]
		for _, c := range pick {
			sum += b.rc[c]
		}
		list = append(list, move{sum, pick})
	}
	slices.SortStableFunc(list, func(a, b move) int { return cmp.Compare(a.delta, b.delta) })
	out := make([][]int, 0, min(len(list), mostMoves))
	for _, m := range list[:min(len(list), mostMoves)] {
		out = append(out, m.cols)
	}
	return out
}

// prices makes breaking a row cost clearly more than the multipliers say it is
// worth, and never nothing.
func (im *improver) prices(y *duals) {
	in := im.in
	im.price = make([]float64, len(in.rows))
	for r := range im.price {
		im.price[r] = 2*y.row[r] + in.widest/in.scale[r]
		if in.rows[r].charges {
			im.paid = append(im.paid, r)
		}
	}
	im.t.setPrices(im.price)
}

// value is the total plus the price of what is exceeded.
func (im *improver) value() float64 {
	charges := im.t.charges()
	v := float64(im.t.total(charges)) + im.t.penalty
	for _, r := range im.paid {
		v += im.price[r] * float64(im.t.excess(r, charges))
	}
	return v
}

func (im *improver) put(block int, cols []int) {
	for i, g := range im.in.blocks[block].groups {
		im.t.set(g, cols[i])
	}
}

func (im *improver) current(block int) []int {
	var cols []int
	for _, g := range im.in.blocks[block].groups {
		cols = append(cols, im.t.pick[g])
	}
	return cols
}

// run starts from one pick per block and ends in a local best. Rows that stay
// broken get dearer and it goes on.
func (im *improver) run(start [][]int, pairs bool) {
	for i, cols := range start {
		if cols == nil {
			return // a block without a pick: nothing can be built on it
		}
		im.put(i, cols)
	}
	for round := 0; round < 6; round++ {
		for im.single() || (pairs && im.double()) {
			if im.budget <= 0 || im.in.halt() {
				break
			}
		}
		broken := false
		charges := im.t.charges()
		for r := range im.price {
			if im.t.excess(r, charges) > 0 {
				im.price[r] *= 8
				broken = true
			}
		}
		im.t.setPrices(im.price)
		im.best.offer(im.t)
		if !broken || im.budget <= 0 {
			return
		}
	}
}

// single makes the best exchange in each block in turn.
func (im *improver) single() bool {
	better := false
	for i := range im.moves {
		if im.in.halt() {
			return false
		}
		was := im.current(i)
		best, bestCols := im.value()-0.5, []int(nil)
		for _, cols := range im.moves[i] {
			im.put(i, cols)
			im.budget--
			if v := im.value(); v < best {
				best, bestCols = v, cols
			}
		}
		if bestCols == nil {
			im.put(i, was)
			continue
		}
		im.put(i, bestCols)
		better = true
	}
	return better
}

// double exchanges two blocks at once, the first few moves of each.
func (im *improver) double() bool {
	const few = 6
	better := false
	for i := range im.moves {
		for k := range i {
			if im.budget <= 0 || im.in.halt() {
				return better
			}
			wasI, wasK := im.current(i), im.current(k)
			best, bestI, bestK := im.value()-0.5, wasI, wasK
			for _, a := range im.moves[i][:min(few, len(im.moves[i]))] {
				im.put(i, a)
				for _, b := range im.moves[k][:min(few, len(im.moves[k]))] {
					im.put(k, b)
					im.budget--
					if v := im.value(); v < best {
						best, bestI, bestK = v, a, b
						better = true
					}
				}
			}
			im.put(i, bestI)
			im.put(k, bestK)
		}
	}
	return better
}
