package solver

import (
	"math"
	"slices"
	"sort"
)

// candidate is one way to cut a domain in two: a switch off or on, or some
// columns of a group against the others.
type candidate struct {
	key   candidateKey
	score float64 // how undecided the LP is, before anything is known of it
	low   bits    // columns of the left child; nil for a switch
}

// candidateKey says what kind of cut it is, for what is learnt of its kind:
// switch and group are -1 where they don't apply, row too.
type candidateKey struct {
	group, sw, row int
}

// history is what cuts of each kind have raised the bounds of their children by.
type history map[candidateKey]*[2]gain

type gain struct {
	sum float64
	n   int
}

func (h history) add(k candidateKey, side int, rise float64) {
	if h[k] == nil {
		h[k] = &[2]gain{}
	}
	h[k][side].sum += rise
	h[k][side].n++
}

// trusted is how often a kind of cut has to have been tried before its average
// is believed.
const trusted = 12

// mostCandidates bounds the cuts looked at in one node, mostTried those that
// linear programs are solved for.
const (
	mostCandidates = 16
	mostTried      = 6
)

// candidates lists the cuts that the LP is undecided about, the most undecided
// first.
func (in *instance) candidates(d *domain, r *relaxation) []candidate {
	var out []candidate
	for h := range d.y {
		if v := math.Min(r.y[h], 1-r.y[h]); d.y[h] == open && v > 1e-6 {
			out = append(out, candidate{candidateKey{-1, h, -1}, 2 * v, nil})
		}
	}
	for g := range in.groups {
		if in.fractional(d, r, g) {
			out = in.groupCandidates(out, d, r, g)
		}
	}
	out = slices.DeleteFunc(out, func(k candidate) bool { return !in.cuts(d, &k) })
	sort.SliceStable(out, func(i, j int) bool { return out[i].score > out[j].score })
	return out[:min(len(out), mostCandidates)]
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

// groupCandidates: columns that need a switch or use a small row against those
// that don't, and the lower against the higher in a row that counts.
func (in *instance) groupCandidates(out []candidate, d *domain, r *relaxation, g int) []candidate {
	need, use := map[int]float64{}, map[int]float64{}
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if r.x[c] < 1e-9 {
			continue
		}
		for _, h := range in.cols[c].needs {
			need[h] += r.x[c]
		}
		for _, t := range in.cols[c].terms {
			if !in.rows[t.Row].dense {
				use[t.Row] += r.x[c]
			}
		}
	}
	for h := range in.switches {
		if v := math.Min(need[h], 1-need[h]); v > 1e-6 {
			out = append(out, candidate{candidateKey{g, h, -1}, v,
				in.lowBits(d, g, func(c int) bool { return !contains(in.cols[c].needs, h) })})
		}
	}
	for k := range in.rows {
		if in.rows[k].dense {
			if r.duals.row[k] == 0 {
				continue
			}
			mean, spread := in.spread(d, r, g, k)
			if spread > 1e-9 {
				out = append(out, candidate{candidateKey{g, -1, k}, 0.5,
					in.lowBits(d, g, func(c int) bool { return float64(coefOf(in.cols[c].terms, k)) <= mean })})
			}
		} else if v := math.Min(use[k], 1-use[k]); v > 1e-6 {
			out = append(out, candidate{candidateKey{g, -1, k}, v,
				in.lowBits(d, g, func(c int) bool { return coefOf(in.cols[c].terms, k) == 0 })})
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
