package model

import (
	"cmp"
	"slices"

	"brightset/catalog"
)

// fewerLines gives the lines of the slot without those that are no better than
// another line of the same k in anything:
//
//	(k, f) goes if there is (k, e) with standin(e) <= standin(f), p_e <= p_f, and
//	e uses no shared piece and no bundle that f or k does not use.
//
// Both lines meet the rules on lines. It saves making most pairs of a big job.
func (b *bench) fewerLines(j *yardstick) []Pair {
	held := b.ranked()
	var all []Pair
	var kept []reserve
	for _, k := range b.planned {
		kept = kept[:0]
		for i := range held {
			r := &held[i]
			if !b.allowed(k, r.f) || j.outdone(kept, r, &b.choices[k]) {
				continue
			}
			kept = append(kept, *r)
		}
		slices.SortFunc(kept, func(a, c reserve) int { return cmp.Compare(a.f, c.f) })
		for i := range kept {
			all = append(all, b.pair(k, kept[i].f))
		}
	}
	return all
}

// reserve is a fallback, or none, seen as a candidate for being held.
type reserve struct {
	f       int32
	standin catalog.Cents
	fails   catalog.Micro
	shared  int32 // its piece where that is shared, else catalog.None
	bundle  int
	piece   int
}

// ranked lists the admitted fallbacks and none, the cheapest to fall back on
// first.
func (b *bench) ranked() []reserve {
	held := []reserve{{f: catalog.None, standin: rescue(b.st, b.slot), fails: catalog.One,
		shared: catalog.None, bundle: catalog.None, piece: catalog.None}}
	for _, f := range b.reserve {
		c := &b.choices[f]
		held = append(held, reserve{f: f, standin: b.standin[f], fails: c.Fails,
			piece: c.Piece, bundle: b.st.Pieces[c.Piece].Bundle})
	}
	slices.SortStableFunc(held, func(a, c reserve) int {
		return cmp.Or(cmp.Compare(a.standin, c.standin), cmp.Compare(a.fails, c.fails), cmp.Compare(a.f, c.f))
	})
	return held
}

// outdone says whether one of the fallbacks kept so far, none of them dearer,
// makes r needless for k.
func (j *yardstick) outdone(kept []reserve, r *reserve, k *Choice) bool {
	bundleK := j.st.Pieces[k.Piece].Bundle
	for i := range kept {
		e := &kept[i]
		if e.fails > r.fails && j.counts.completion {
			continue
		}
		if e.piece != r.piece && e.piece != catalog.None && j.shared[e.piece] {
			continue
		}
		if e.bundle != catalog.None && e.bundle != r.bundle && e.bundle != bundleK {
			continue
		}
		return true
	}
	return false
}
