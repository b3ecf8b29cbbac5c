package solver

// sideways lays U out by rows, for solves from the left.
func (f *factor) sideways() {
	count := f.inRow // no longer needed
	clear(count)
	for _, i := range f.up.at {
		count[i]++
	}
	f.side.reset()
	total := int32(0)
	for step, i := range f.row {
		total += count[i]
		f.side.start = append(f.side.start, total)
		if count[i] > 0 || f.diag[step] != 1 {
			f.right = append(f.right, int32(step))
		}
	}
	f.side.at = append(f.side.at, make([]int32, total)...)
	f.side.val = append(f.side.val, make([]float64, total)...)
	fill := make([]int32, f.m) // by row
	for step, i := range f.row {
		fill[i] = f.side.start[step]
	}
	for step := range f.row {
		at, val := f.up.list(step)
		for n, i := range at {
			f.side.at[fill[i]], f.side.val[fill[i]] = f.row[step], val[n]
			fill[i]++
		}
	}
}

// forward solves B x = v in place.
func (f *factor) forward(v []float64) {
	for _, step := range f.lower {
		if x := v[f.row[step]]; x != 0 {
			at, val := f.low.list(int(step))
			for n, i := range at {
				v[i] -= x * val[n]
			}
		}
	}
	for n := len(f.upper) - 1; n >= 0; n-- {
		step := f.upper[n]
		x := v[f.row[step]]
		if x == 0 {
			continue
		}
		x /= f.diag[step]
		v[f.row[step]] = x
		at, val := f.up.list(int(step))
		for n, i := range at {
			v[i] -= x * val[n]
		}
	}
	for k, p := range f.place {
		x := v[p]
		if x == 0 {
			continue
		}
		x /= f.pivot[k]
		v[p] = x
		at, val := f.eta.list(k)
		for n, i := range at {
			v[i] -= x * val[n]
		}
	}
}

// backward solves x B = v in place.
func (f *factor) backward(v []float64) {
	for k := len(f.place) - 1; k >= 0; k-- {
		x := v[f.place[k]]
		at, val := f.eta.list(k)
		for n, i := range at {
			x -= v[i] * val[n]
		}
		v[f.place[k]] = x / f.pivot[k]
	}
	for _, step := range f.right {
		x := v[f.row[step]]
		if x == 0 {
			continue
		}
		x /= f.diag[step]
		v[f.row[step]] = x
		at, val := f.side.list(int(step))
		for n, i := range at {
			v[i] -= x * val[n]
		}
	}
	for k := len(f.lower) - 1; k >= 0; k-- {
		step := f.lower[k]
		x := v[f.row[step]]
		at, val := f.low.list(int(step))
		for n, i := range at {
			x -= v[i] * val[n]
		}
		v[f.row[step]] = x
	}
}

// exchange puts a column, as forward gives it, in the place of another.
func (f *factor) exchange(place int, column []float64) {
	for i, v := range column {
		if v != 0 && i != place && (v > nothing || v < -nothing) {
			f.eta.put(int32(i), v)
		}
	}
	f.eta.end()
	f.place, f.pivot = append(f.place, int32(place)), append(f.pivot, column[place])
}

// worn says that it is time to eliminate anew: the exchanges cost more than they save.
func (f *factor) worn() bool {
	return len(f.place) >= 100 || len(f.eta.at) > 2*(len(f.up.at)+len(f.low.at)+f.m)
}
