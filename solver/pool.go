package solver

import (
	"cmp"
	"math"
	"slices"
)

// pool holds the picks of blocks that the linear programs work with: of a small
// single group all its columns, of a large one the columns priced in so far, of
// a block of several groups the combinations priced in so far.
type pool struct {
	combos [][][]int // per block; nil for small single groups
	in     bits      // columns of large single groups that are in
}

// A single group of up to this many columns is in the LP as a whole.
const smallGroup = 24

// How many picks of a block are put in at first, and at most per round.
const (
	firstPicks = 10
	roundPicks = 8
)

func (in *instance) newPool() *pool {
	return &pool{combos: make([][][]int, len(in.blocks)), in: newBits(len(in.cols))}
}

// clone shares what is in so far; either side may add without the other seeing it.
func (p *pool) clone() *pool {
	out := &pool{combos: make([][][]int, len(p.combos)), in: p.in.clone()}
	for i := range p.combos {
		out.combos[i] = p.combos[i][:len(p.combos[i]):len(p.combos[i])]
	}
	return out
}

// whole says whether a block's columns are all in the LP anyway.
func (in *instance) whole(i int) bool {
	b := &in.blocks[i]
	g := b.groups[0]
	return b.single() && (in.entire || in.groups[g][1]-in.groups[g][0] <= smallGroup)
}

// add puts a pick in and says whether it is new.
func (p *pool) add(i int, cols []int) bool {
	if len(cols) == 1 {
		if p.in.has(cols[0]) {
			return false
		}
		p.in.add(cols[0])
	} else {
		for _, have := range p.combos[i] {
			same := true
			for j, c := range have {
				same = same && cols[j] == c
			}
			if same {
				return false
			}
		}
	}
	p.combos[i] = append(p.combos[i], append([]int(nil), cols...))
	return true
}

// seed puts in the best picks by the multipliers where a block has none in the
// domain.
func (in *instance) seed(p *pool, d *domain, b *bound) {
	for i := range in.blocks {
		if in.whole(i) {
			continue
		}
		have := false
		for _, pick := range p.combos[i] {
			have = have || in.aliveAll(d, pick)
		}
		if have {
			if b.best[i] != nil {
				p.add(i, b.best[i])
			}
			continue
		}
		for _, pick := range in.cheapest(d, b, i, math.Inf(1), firstPicks) {
			p.add(i, pick)
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

// cheapest gives up to n picks of a block with a reduced cost below a limit, the
// least first: columns of a single group, else the best of each window.
func (in *instance) cheapest(d *domain, b *bound, i int, below float64, n int) [][]int {
	type priced struct {
		rc   float64
		cols []int
	}
	var list []priced
	blk := &in.blocks[i]
	if blk.single() {
		g := blk.groups[0]
		for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
			if b.rc[c] < below {
				list = append(list, priced{b.rc[c], []int{c}})
			}
		}
	} else {
		for _, pick := range in.picks(blk, d, b.rc, below, n) {
			sum := 0.0
			for _, c := range pick {
				sum += b.rc[c]
			}
			list = append(list, priced{sum, pick})
		}
	}
	slices.SortStableFunc(list, func(a, b priced) int { return cmp.Compare(a.rc, b.rc) })
	var out [][]int
	for _, k := range list[:min(n, len(list))] {
		out = append(out, k.cols)
	}
	return out
}

// price puts in, for every block that is not whole, picks that improve the LP.
// It says whether there were any.
func (in *instance) price(p *pool, d *domain, b *bound) bool {
	added := false
	for i := range in.blocks {
		if in.whole(i) {
			continue
		}
		have := math.Inf(1) // least reduced cost among those in the LP
		for _, pick := range p.combos[i] {
			if in.aliveAll(d, pick) {
				sum := 0.0
				for _, c := range pick {
					sum += b.rc[c]
				}
				have = min(have, sum)
			}
		}
		if b.block[i] >= have-1e-6*(1+math.Abs(have)) {
			continue
		}
		for _, pick := range in.cheapest(d, b, i, have-1e-6*(1+math.Abs(have)), roundPicks) {
			if p.add(i, pick) {
				added = true
			}
		}
	}
	return added
}

// picks gives up to n different picks of a larger block with a sum below a limit:
// the best around each of the most promising classes.
func (in *instance) picks(b *block, d *domain, rc []float64, below float64, n int) [][]int {
	r := b.rank(d, rc)
	rest := r.others()
	var order []int
	for k := range rest {
		if r.at[k] >= 0 && r.least[k]+rest[k] < below {
			order = append(order, k)
		}
	}
	slices.SortStableFunc(order, func(x, y int) int {
		return cmp.Compare(r.least[x]+rest[x], r.least[y]+rest[y])
	})
	var out [][]int
	covered := map[int]bool{}
	for _, k := range order {
		if covered[k] {
			continue // the pick it would give is likely there already
		}
		if in.halt() {
			break
		}
		_, cols, _ := r.cheapest(k, below)
		if cols == nil {
			continue
		}
		for _, c := range cols {
			covered[in.classOf[c]] = true
		}
		if out = append(out, cols); len(out) == n {
			break
		}
	}
	return out
}
