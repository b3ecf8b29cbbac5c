package program

import (
	"cmp"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// fewerLines gives the lines of the slot without those that are no better than
// another line of the same k in anything:
//
//	(k, f) goes if there is (k, e) with fallback(e) <= fallback(f), p_e <= p_f,
//	keeps(e) >= keeps(f), and
//	e uses no shared piece and no bundle that f or k does not use, and
//	e is no variant, or the one that f is.
//
// Both lines meet the rules on lines. It saves making most pairs of a big job.
func (b *slotChoices) fewerLines(j *dominance) []Pair {
	held := b.ranked()
	least, most := leastFails(held), mostKept(held)
	var all []Pair
	var kept []reserve
	for _, k := range b.planned {
		if b.choices[k].Fails == 0 { // nothing is held for it
			if b.allowed(k, catalog.None) {
				all = append(all, b.pair(k, catalog.None))
			}
			continue
		}
		kept = kept[:0]
		for i := range held {
			r := &held[i]
			if !b.allowed(k, r.f) || j.outdone(kept, r, &b.choices[k]) {
				continue
			}
			kept = append(kept, *r)
			if r.keeps >= most[i] && j.outdoesAll(r, least[i], &b.choices[k]) {
				break
			}
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
	f            int32
	fallbackCost catalog.Cents
	keeps        catalog.Cents
	unsteady     int32 // 0 if the kept plan holds it
	fails        catalog.Micro
	shared       int32 // its piece where that is shared, else catalog.None
	bundle       int
	piece        int
	variant      int32
}

// ranked lists the admitted fallbacks and none, the cheapest to fall back on
// first, of equals the one that the kept plan holds.
func (b *slotChoices) ranked() []reserve {
	held := []reserve{{f: catalog.None, fallbackCost: choice.Rescue(b.st, b.slot), fails: catalog.One,
		shared: catalog.None, bundle: catalog.None, piece: catalog.None, variant: catalog.None,
		unsteady: 1}}
	for _, f := range b.reserve {
		c := &b.choices[f]
		unsteady := int32(1)
		if b.steady.holds(c) {
			unsteady = 0
		}
		held = append(held, reserve{f: f, unsteady: unsteady, fallbackCost: b.fallbackCost[f], keeps: c.Keeps,
			fails: c.Fails, piece: c.Piece, bundle: b.st.Pieces[c.Piece].Bundle, variant: b.variantOf(f, catalog.None)})
	}
	slices.SortStableFunc(held, func(a, c reserve) int {
		return cmp.Or(cmp.Compare(a.fallbackCost, c.fallbackCost), cmp.Compare(c.keeps, a.keeps),
			cmp.Compare(a.unsteady, c.unsteady),
			cmp.Compare(a.fails, c.fails), cmp.Compare(a.f, c.f))
	})
	return held
}

// leastFails is, for each fallback, the least chance of failing of those after it.
func leastFails(held []reserve) []catalog.Micro {
	least := make([]catalog.Micro, len(held))
	next := catalog.One
	for i := len(held) - 1; i >= 0; i-- {
		least[i] = next
		next = min(next, held[i].fails)
	}
	return least
}

// mostKept is, for each fallback, the most that one of those after it keeps.
func mostKept(held []reserve) []catalog.Cents {
	most := make([]catalog.Cents, len(held))
	next := catalog.Cents(0)
	for i := len(held) - 1; i >= 0; i-- {
		most[i] = next
		next = max(next, held[i].keeps)
	}
	return most
}

// outdoesAll says whether a fallback makes every one after it needless for k, none of
// which fails less often than least.
func (j *dominance) outdoesAll(e *reserve, least catalog.Micro, k *plan.Choice) bool {
	switch {
	case j.counts.completion && e.fails > least:
		return false
	case e.piece != catalog.None && j.shared[e.piece]:
		return false
	case e.variant != catalog.None:
		return false
	}
	return e.bundle == catalog.None || e.bundle == j.st.Pieces[k.Piece].Bundle
}

// outdone says whether one of the fallbacks kept so far, none of them dearer,
// makes r needless for k.
func (j *dominance) outdone(kept []reserve, r *reserve, k *plan.Choice) bool {
	bundleK := j.st.Pieces[k.Piece].Bundle
	for i := range kept {
		e := &kept[i]
		if e.keeps < r.keeps || e.fails > r.fails && j.counts.completion {
			continue
		}
		if e.piece != r.piece && e.piece != catalog.None && j.shared[e.piece] {
			continue
		}
		if e.bundle != catalog.None && e.bundle != r.bundle && e.bundle != bundleK {
			continue
		}
		if e.variant != catalog.None && e.variant != r.variant {
			continue
		}
		return true
	}
	return false
}
