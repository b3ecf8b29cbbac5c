package solver

import "math"

// factor is a basis in triangular factors, L U, and the exchanges since (a product of
// elementary matrices). Where the columns of the basis stand is chosen by it: the column
// that is eliminated in row i stands in place i, so that rows and places are one.
type factor struct {
	m     int
	row   []int32 // the row eliminated in each step
	diag  []float64
	low   sparse // per step, what of its row is taken from others
	lower []int32
	up    sparse  // per step, the column of U above the diagonal, by row
	upper []int32 // steps that do anything to a column
	side  sparse  // per step, the row of U right of the diagonal, by place
	right []int32 // steps that do anything to a row

	eta   sparse // per exchange, the column that came in, aside from its place
	place []int32
	pivot []float64

	work    []float64
	done    []bool // per row
	inRow   []int32
	inCol   []int32
	byRow   sparse
	touched []int32
}

// sparse is lists of places and values, end to end.
type sparse struct {
	start []int32
	at    []int32
	val   []float64
}

func (s *sparse) reset() { s.start, s.at, s.val = append(s.start[:0], 0), s.at[:0], s.val[:0] }

func (s *sparse) put(at int32, v float64) { s.at, s.val = append(s.at, at), append(s.val, v) }

func (s *sparse) end() { s.start = append(s.start, int32(len(s.at))) }

func (s *sparse) list(k int) ([]int32, []float64) {
	from, to := s.start[k], s.start[k+1]
	return s.at[from:to], s.val[from:to]
}

// Below this a number is what rounding left of nothing.
const nothing = 1e-14

// Of a column only what is at least this share of its largest element may be a pivot.
const pivotShare = 0.1

// elements gives the column that stands at a place.
type elements func(place int) ([]int32, []float64)

// build eliminates the columns of a basis. head, where each stands, is put in the order
// of rows. It gives the rows that were left over because the basis is singular; the
// columns that were have the value -1 in head there, and the caller has to find others.
func (f *factor) build(m int, head []int32, col elements) (left []int32) {
	f.clear(m)
	f.count(head, col)
	out := make([]int32, m)
	for i := range out {
		out[i] = -1
	}
	take := func(p, i int32) { out[i], f.inCol[p] = head[p], -1 }
	f.triangle(col, take)
	f.kernel(col, take)
	for i := range out {
		if !f.done[i] {
			left = append(left, int32(i))
		}
	}
	copy(head, out)
	if len(left) == 0 {
		f.sideways()
	}
	return left
}

func (f *factor) clear(m int) {
	f.m = m
	f.row, f.diag = f.row[:0], f.diag[:0]
	f.low.reset()
	f.up.reset()
	f.lower, f.upper, f.right = f.lower[:0], f.upper[:0], f.right[:0]
	f.eta.reset()
	f.place, f.pivot = f.place[:0], f.pivot[:0]
	if len(f.work) != m {
		f.work, f.done = make([]float64, m), make([]bool, m)
		f.inRow, f.inCol = make([]int32, m), make([]int32, m)
	}
	clear(f.done)
	clear(f.inRow)
}

// count lays the basis out by rows.
func (f *factor) count(head []int32, col elements) {
	for p := range head {
		at, _ := col(p)
		f.inCol[p] = int32(len(at))
		for _, i := range at {
			f.inRow[i]++
		}
	}
	f.byRow.reset()
	total := int32(0)
	for _, n := range f.inRow {
		total += n
		f.byRow.start = append(f.byRow.start, total)
	}
	f.byRow.at = append(f.byRow.at, make([]int32, total)...)
	fill := append(f.touched[:0], f.byRow.start[:f.m]...)
	for p := range head {
		at, _ := col(p)
		for _, i := range at {
			f.byRow.at[fill[i]] = int32(p)
			fill[i]++
		}
	}
	f.touched = fill[:0]
}

// triangle eliminates, as long as there are any, columns with one row left and rows with
// one column left: nothing else changes by it.
func (f *factor) triangle(col elements, take func(p, i int32)) {
	var cols, rows []int32
	for p, n := range f.inCol {
		if n == 1 {
			cols = append(cols, int32(p))
		}
	}
	for i, n := range f.inRow {
		if n == 1 {
			rows = append(rows, int32(i))
		}
	}
	for len(cols)+len(rows) > 0 {
		p, i := int32(-1), int32(-1)
		if n := len(cols); n > 0 {
			p, cols = cols[n-1], cols[:n-1]
			if f.inCol[p] != 1 {
				continue
			}
			i = f.rowOf(p, col)
		} else {
			n := len(rows)
			i, rows = rows[n-1], rows[:n-1]
			if f.done[i] || f.inRow[i] != 1 {
				continue
			}
			p = f.columnOf(i)
		}
		at, val := col(int(p))
		if !f.step(i, at, val) {
			continue
		}
		take(p, i)
		for _, k := range at {
			if f.inRow[k]--; f.inRow[k] == 1 && !f.done[k] {
				rows = append(rows, k)
			}
		}
		for _, q := range f.byRow.at[f.byRow.start[i]:f.byRow.start[i+1]] {
			if f.inCol[q] > 0 {
				if f.inCol[q]--; f.inCol[q] == 1 {
					cols = append(cols, q)
				}
			}
		}
	}
}

func (f *factor) rowOf(p int32, col elements) int32 {
	at, _ := col(int(p))
	for _, i := range at {
		if !f.done[i] {
			return i
		}
	}
	return -1
}

func (f *factor) columnOf(i int32) int32 {
	for _, p := range f.byRow.at[f.byRow.start[i]:f.byRow.start[i+1]] {
		if f.inCol[p] > 0 {
			return p
		}
	}
	return -1
}

// step eliminates a column in row i. False: its element there is too small.
func (f *factor) step(i int32, at []int32, val []float64) bool {
	most, pivot := 0.0, 0.0
	for n, k := range at {
		if !f.done[k] {
			most = max(most, math.Abs(val[n]))
			if k == i {
				pivot = val[n]
			}
		}
	}
	if math.Abs(pivot) < pivotShare*most || math.Abs(pivot) < 1e-9 {
		return false
	}
	step := int32(len(f.row))
	for n, k := range at {
		switch {
		case f.done[k]:
			f.up.put(k, val[n])
		case k != i:
			f.low.put(k, val[n]/pivot)
		}
	}
	if int(f.up.start[step]) < len(f.up.at) || pivot != 1 {
		f.upper = append(f.upper, step)
	}
	if int(f.low.start[step]) < len(f.low.at) {
		f.lower = append(f.lower, step)
	}
	f.up.end()
	f.low.end()
	f.row, f.diag, f.done[i] = append(f.row, i), append(f.diag, pivot), true
	return true
}
