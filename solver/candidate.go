package solver

import (
	"slices"
)

// candidate is one way to cut a domain in two: a switch off or on, or some
// columns of a group against the others.
type candidate struct {
	key  candidateKey
	move [2]float64 // how much of the LP's solution has to go elsewhere on each side
	low  bits       // columns of the left child; nil for a switch
}

// candidateKey says what kind of cut it is, for what is learnt of its kind:
// switch and group are -1 where they don't apply, row and column too.
type candidateKey struct {
	group, sw, row, col int
}

// candidates lists the cuts that the LP is undecided about.
func (in *instance) candidates(d *domain, r *relaxation) []candidate {
	var out []candidate
	for h := range d.y {
		if v := r.y[h]; d.y[h] == open && v > 1e-6 && v < 1-1e-6 {
			out = append(out, candidate{candidateKey{-1, h, -1, -1}, [2]float64{v, 1 - v}, nil})
		}
	}
	for g := range in.groups {
		if in.fractional(d, r, g) {
			out = in.groupCandidates(out, d, r, g)
		}
	}
	return slices.DeleteFunc(out, func(k candidate) bool { return !in.cuts(d, &k) })
}

// cuts says whether both sides of a cut get something. The LP may have been
// solved before columns were ruled out, so what looked divided may not be.
func (in *instance) cuts(d *domain, k *candidate) bool {
	if k.low == nil {
		return true
	}
	low, high := false, false
	for c := in.first(d, k.key.group); c < in.groups[k.key.group][1]; c = d.alive.next(c+1, in.groups[k.key.group][1]) {
		low = low || k.low.has(c)
		high = high || !k.low.has(c)
	}
	return low && high
}

// groupCandidates: one column against the others, columns that need a switch or use a small
// row against those that don't, and the lower against the higher in a row that counts.
func (in *instance) groupCandidates(out []candidate, d *domain, r *relaxation, g int) []candidate {
	need, use := map[int]float64{}, map[int]float64{}
	var picked []int
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if r.x[c] < 1e-9 {
			continue
		}
		picked = append(picked, c)
		for _, h := range in.cols[c].needs {
			need[h] += r.x[c]
		}
		for _, t := range in.cols[c].terms {
			if !in.rows[t.Row].dense {
				use[t.Row] += r.x[c]
			}
		}
	}
	add := func(key candidateKey, low func(c int) bool) {
		w := 0.0
		for _, c := range picked {
			if low(c) {
				w += r.x[c]
			}
		}
		if w > 1e-6 && w < 1-1e-6 {
			out = append(out, candidate{key, [2]float64{1 - w, w}, in.lowBits(d, g, low)})
		}
	}
	for _, c := range picked {
		add(candidateKey{g, -1, -1, in.cols[c].orig}, func(k int) bool { return k == c })
	}
	for h := range in.switches {
		if need[h] > 1e-6 {
			add(candidateKey{g, h, -1, -1}, func(c int) bool { return !contains(in.cols[c].needs, h) })
		}
	}
	for k := range in.rows {
		switch {
		case !in.rows[k].dense && use[k] > 1e-6:
			add(candidateKey{g, -1, k, -1}, func(c int) bool { return coefOf(in.cols[c].terms, k) == 0 })
		case in.rows[k].dense && r.duals.row[k] > 0:
			if mean, spread := in.spread(d, r, g, k); spread > 1e-9 {
				add(candidateKey{g, -1, k, -1}, func(c int) bool { return float64(coefOf(in.cols[c].terms, k)) <= mean })
			}
		}
	}
	return out
}

func (in *instance) lowBits(d *domain, g int, low func(c int) bool) bits {
	out := newBits(len(in.cols))
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if low(c) {
			out.add(c)
		}
	}
	return out
}

// apply makes the two domains of a cut.
func (in *instance) apply(d *domain, k *candidate) (left, right *domain) {
	left, right = d.clone(), d.clone()
	if k.low == nil {
		left.y[k.key.sw], right.y[k.key.sw] = off, on
		return left, right
	}
	g := k.key.group
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if k.low.has(c) {
			right.alive.drop(c)
		} else {
			left.alive.drop(c)
		}
	}
	return left, right
}
