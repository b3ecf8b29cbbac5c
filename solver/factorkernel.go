package solver

import (
	"cmp"
	"math"
	"slices"
)

// kernel eliminates what is left, columns with few elements first, each in the row with
// the fewest of those where its element is large.
func (f *factor) kernel(col elements, take func(p, i int32)) {
	var order []int32
	for p, n := range f.inCol {
		if n >= 0 && len(f.row) < f.m {
			order = append(order, int32(p))
		}
	}
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(f.inCol[a], f.inCol[b]) })
	first := len(f.lower)
	for _, p := range order {
		f.touched = f.touched[:0]
		at, val := col(int(p))
		for n, i := range at {
			f.touch(i, val[n])
		}
		for _, step := range f.lower[first:] {
			if v := f.work[f.row[step]]; v != 0 {
				at, val := f.low.list(int(step))
				for n, i := range at {
					f.touch(i, -v*val[n])
				}
			}
		}
		at, val = nil, nil
		for _, i := range f.touched {
			if v := f.work[i]; math.Abs(v) > nothing {
				at, val = append(at, i), append(val, v)
			}
			f.work[i] = 0
		}
		if i := f.bestRow(at, val); i >= 0 && f.step(i, at, val) {
			take(p, i)
		}
	}
	f.touched = f.touched[:0]
}

// touch adds to an element; one that came to nothing on the way may be listed twice.
func (f *factor) touch(i int32, v float64) {
	if f.work[i] == 0 {
		f.touched = append(f.touched, i)
	}
	f.work[i] += v
}

func (f *factor) bestRow(at []int32, val []float64) int32 {
	most := 0.0
	for n, i := range at {
		if !f.done[i] {
			most = max(most, math.Abs(val[n]))
		}
	}
	best := int32(-1)
	for n, i := range at {
		if !f.done[i] && math.Abs(val[n]) >= pivotShare*most && (best < 0 || f.inRow[i] < f.inRow[best]) {
			best = i
		}
	}
	return best
}
