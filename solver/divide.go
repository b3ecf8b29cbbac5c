package solver

import "math"

// divide cuts a domain in two: by a switch that the LP leaves between off and
// on, else by a group whose columns differ most in a row that matters, else by
// any group that is not settled.
func (in *instance) divide(d *domain, r *relaxation) (left, right *domain) {
	if r != nil {
		if h := in.undecidedSwitch(d, r); h >= 0 {
			left, right = d.clone(), d.clone()
			left.y[h], right.y[h] = off, on
			return left, right
		}
		if g, low := in.widestGroup(d, r); g >= 0 {
			return in.cut(d, g, low)
		}
	}
	for h := range d.y {
		if d.y[h] == open && in.switches[h].voluntary {
			left, right = d.clone(), d.clone()
			left.y[h], right.y[h] = off, on
			return left, right
		}
	}
	best, most := -1, 1
	for g := range in.groups {
		if n := in.count(d, g, 1<<30); n > most {
			best, most = g, n
		}
	}
	if best < 0 {
		return nil, nil // one pick only, and it has been looked at
	}
	pick := in.first(d, best)
	if r != nil {
		for c := pick; c < in.groups[best][1]; c = d.alive.next(c+1, in.groups[best][1]) {
			if r.x[c] > r.x[pick] || (r.x[c] == r.x[pick] && r.bound.rc[c] < r.bound.rc[pick]) {
				pick = c
			}
		}
	}
	return in.cut(d, best, map[int]bool{pick: true})
}

// cut gives the columns of low to the left child and the others to the right.
func (in *instance) cut(d *domain, g int, low map[int]bool) (left, right *domain) {
	left, right = d.clone(), d.clone()
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if low[c] {
			right.alive.drop(c)
		} else {
			left.alive.drop(c)
		}
	}
	return left, right
}

func (in *instance) undecidedSwitch(d *domain, r *relaxation) int {
	best, most := -1, 1e-6
	for h := range d.y {
		if d.y[h] != open {
			continue
		}
		s := &in.switches[h]
		size := math.Abs(float64(s.fixed)) + float64(s.minimum) + 1
		if v := math.Min(r.y[h], 1-r.y[h]); v > 1e-6 && v*size > most {
			best, most = h, v*size
		}
	}
	return best
}

// widestGroup is the fractional group whose columns spread most, weighed by the
// multiplier, in one row; low are those below the average there.
func (in *instance) widestGroup(d *domain, r *relaxation) (int, map[int]bool) {
	best, row, most, average := -1, -1, 0.0, 0.0
	for g := range in.groups {
		if !in.fractional(d, r, g) {
			continue
		}
		if best < 0 {
			best = g
		}
		for k := range in.rows {
			if r.duals.row[k] == 0 {
				continue
			}
			mean, spread := in.spread(d, r, g, k)
			if v := spread * r.duals.row[k]; v > most {
				best, row, most, average = g, k, v, mean
			}
		}
	}
	if best < 0 {
		return -1, nil
	}
	low := map[int]bool{}
	if row >= 0 {
		for c := in.first(d, best); c < in.groups[best][1]; c = d.alive.next(c+1, in.groups[best][1]) {
			if float64(coefOf(in.cols[c].terms, row)) <= average {
				low[c] = true
			}
		}
	}
	if len(low) == 0 || len(low) == in.count(d, best, 1<<30) {
		low = map[int]bool{in.heaviest(d, r, best): true}
	}
	return best, low
}

// fractional says whether the LP is undecided about a group that is still open.
func (in *instance) fractional(d *domain, r *relaxation, g int) bool {
	if in.count(d, g, 2) < 2 {
		return false
	}
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if r.x[c] > 1e-6 && r.x[c] < 1-1e-6 {
			return true
		}
	}
	return false
}

func (in *instance) heaviest(d *domain, r *relaxation, g int) int {
	best := in.first(d, g)
	for c := best; c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if r.x[c] > r.x[best] {
			best = c
		}
	}
	return best
}

// spread is the LP's average coefficient of a group in a row and the mean
// distance from it.
func (in *instance) spread(d *domain, r *relaxation, g, k int) (mean, spread float64) {
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		mean += r.x[c] * float64(coefOf(in.cols[c].terms, k))
	}
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		spread += r.x[c] * math.Abs(float64(coefOf(in.cols[c].terms, k))-mean)
	}
	return mean, spread
}
