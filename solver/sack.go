package solver

import (
	"cmp"
	"slices"
)

// fill lists the cells and the choices of a block. False: there are too many.
func (k *knapsack) fill(d *domain, i int, least []int64, unit int64, b *bound, gap float64) bool {
	blk := &k.in.blocks[i]
	f := filling{k: k, blk: blk, first: len(k.cells), byGroup: make([][]int32, len(blk.groups)),
		left: make([]float64, len(blk.groups)+1)}
	costOf := func(x int32) float64 { return f.cost[int(x)-f.first] }
	for j, g := range blk.groups {
		f.list(d, j, g, least[g], unit, b)
		if len(f.byGroup[j]) == 0 {
			return false
		}
		slices.SortStableFunc(f.byGroup[j], func(x, y int32) int { return cmp.Compare(costOf(x), costOf(y)) })
	}
	for j := len(blk.groups) - 1; j >= 0; j-- {
		f.left[j] = f.left[j+1] + costOf(f.byGroup[j][0])
	}
	f.most = b.block[i] + gap
	f.chosen = make([]int32, len(blk.groups))
	f.sack = sack{groups: len(blk.groups)}
	if !f.walk(0, 0, 0) {
		return false
	}
	k.parts = append(k.parts, f.sack)
	sizes := map[int]bool{}
	for _, v := range f.sack.size {
		sizes[v] = true
	}
	k.work += len(f.sack.choices) + len(sizes)*k.units
	return true
}

// filling is a block whose choices are being listed.
type filling struct {
	k       *knapsack
	blk     *block
	first   int       // of its cells
	class   []int     // per cell
	cost    []float64 // per cell, its least reduced cost
	byGroup [][]int32 // cells, the cheapest first
	left    []float64 // per group, the least that it and those after it come to
	most    float64   // what a choice may come to
	chosen  []int32
	steps   int
	sack    sack
}

// list makes the cells of a group.
func (f *filling) list(d *domain, j, g int, least, unit int64, b *bound) {
	k, in := f.k, f.k.in
	at := map[[2]int]int{}
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		size := (coefOf(in.cols[c].terms, k.row) - least) / unit
		if size > int64(k.units) {
			continue
		}
		key := [2]int{0, int(size)}
		if !f.blk.single() {
			key[0] = in.classOf[c]
		}
		x, ok := at[key]
		if !ok {
			x = len(k.cells)
			at[key] = x
			k.cells = append(k.cells, cell{size: int(size)})
			f.class = append(f.class, key[0])
			f.cost = append(f.cost, b.rc[c])
			f.byGroup[j] = append(f.byGroup[j], int32(x))
		}
		k.cells[x].cols = append(k.cells[x].cols, c)
		f.cost[x-f.first] = min(f.cost[x-f.first], b.rc[c])
	}
}

// walk chooses a cell of every group from the one at place j on.
func (f *filling) walk(j, size int, cost float64) bool {
	if j == len(f.byGroup) {
		f.sack.choices = append(f.sack.choices, f.chosen...)
		f.sack.size = append(f.sack.size, size)
		return len(f.sack.size) <= mostChoices
	}
next:
	for _, x := range f.byGroup[j] {
		v := cost + f.cost[int(x)-f.first]
		if v+f.left[j+1] > f.most {
			break
		}
		if size+f.k.cells[x].size > f.k.units {
			continue
		}
		if f.steps++; f.steps > 10*mostChoices {
			return false
		}
		for _, y := range f.chosen[:j] {
			if !f.blk.goes[f.class[int(y)-f.first]].has(f.class[int(x)-f.first]) {
				continue next
			}
		}
		f.chosen[j] = x
		if !f.walk(j+1, size+f.k.cells[x].size, v) {
			return false
		}
	}
	return true
}
