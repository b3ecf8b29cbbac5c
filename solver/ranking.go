package solver

import (
	"cmp"
	"slices"
)

// classes sorted for one set of reduced costs.
type ranking struct {
	b     *block
	least []float64 // per class, the least reduced cost of its columns alive
	at    []int     // per class, the column that has it, -1 if none is alive
	order [][]int   // per group, its classes alive by rising least
}

func (b *block) rank(d *domain, rc []float64) *ranking {
	r := &ranking{
		b:     b,
		least: make([]float64, len(b.classes)),
		at:    make([]int, len(b.classes)),
		order: make([][]int, len(b.groups)),
	}
	for k, cols := range b.classes {
		r.at[k] = -1
		for _, c := range cols {
			if d.alive.has(c) && (r.at[k] < 0 || rc[c] < r.least[k]) {
				r.least[k], r.at[k] = rc[c], c
			}
		}
		if r.at[k] >= 0 {
			r.order[b.groupOf[k]] = append(r.order[b.groupOf[k]], k)
		}
	}
	for _, list := range r.order {
		slices.SortStableFunc(list, func(x, y int) int { return cmp.Compare(r.least[x], r.least[y]) })
	}
	return r
}
