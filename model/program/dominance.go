package program

import (
	"cmp"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
)

// A line A of a slot makes another line B of it needless if in every plan with B
// it could take B's place at no more cost and without breaking a rule:
//
//   - cost(A) + fill <= cost(B), where fill is what B does towards filling its
//     plater's minimum and A does not, and cost is less what is kept of the object's own; so too
//     in the budget, where nothing is taken off for that: on outlay, expected, or on quote with its
//     markups. Of equal costs the better by the tie keys, then the earlier;
//   - A's share of the mean is at least B's, its loss of completion at most B's;
//   - the shared pieces A uses are among those B uses, so are the platers, vendors
//     and bundles it needs;
//   - what it gets for trades is what B gets;
//   - where the slot is in a match, the values matched are B's;
//   - it has no variant in it, or the one that B has: another may be banned, and of all
//     variants a plan has one in it at most.
//
// The order by cost, tie keys and place is strict, so no two lines remove each
// other, and limits, freights and tags may change without making this untrue.

// dominance knows what the lines of one slot have to be compared by.
type dominance struct {
	st     *catalog.State
	steady *steady
	slot   int
	shared []bool // per piece: other slots may want it, or a trade gives it
	got    []bool // per piece: a trade gets it
	counts struct {
		mean, completion, budget bool // rows that bind or may come to bind
	}
	grade, tone, fresh, platers bool  // matched with other slots
	apart                       bool  // only lines of one k are compared
	markedCent                  int64 // what a cent that a minimum is short counts for in the budget
}

// sig is all of a line that one line must be a part of, or equal in, to remove
// another.
type sig struct {
	shared          [2]int // ascending, catalog.None first
	plater          int
	vendor          int
	bundles         [2]int // ascending, catalog.None first
	got             int
	gradeOf, toneOf catalog.Centi
	freshOf         bool
	// plater of a piece that is there already or back, where pieces have to match; catalog.None else
	sentTo  int
	lot     choice.Lot // that has gone, where tones have to match and his drift
	choice  int32
	variant int32 // catalog.None where its choices are as they are
}

// figures are what remains to be compared.
type figures struct {
	line        int // place in the slot's list
	cost        catalog.Cents
	budgeted    int64 // in the row of the budget
	grade, load int64
	loss        int64
	tie         [2]int64
}

// bucket holds the kept lines of one signature.
type bucket struct {
	sig  sig
	kept []figures
}

// prune gives the lines that no other line makes needless, in their order.
func (j *dominance) prune(b *slotChoices, pairs []Pair) []Pair {
	all := make([]figures, len(pairs))
	for i := range pairs {
		all[i] = j.figures(b, pairs[i], i)
	}
	slices.SortFunc(all, func(a, c figures) int {
		return cmp.Or(cmp.Compare(a.cost, c.cost), cmp.Compare(a.tie[0], c.tie[0]),
			cmp.Compare(a.tie[1], c.tie[1]), cmp.Compare(a.line, c.line))
	})
	buckets := map[[2]int][]*bucket{}
	keep := make([]bool, len(pairs))
	for i := range all {
		s := j.sign(b, pairs[all[i].line])
		if !j.removed(buckets, &s, &all[i]) {
			keep[all[i].line] = true
			file(buckets, s, all[i])
		}
	}
	var left []Pair
	for i := range pairs {
		if keep[i] {
			left = append(left, pairs[i])
		}
	}
	return left
}

// file puts a kept line into the bucket of its signature.
func file(buckets map[[2]int][]*bucket, s sig, f figures) {
	for _, b := range buckets[s.shared] {
		if b.sig == s {
			b.kept = append(b.kept, f)
			return
		}
	}
	buckets[s.shared] = append(buckets[s.shared], &bucket{s, []figures{f}})
}

// removed looks through the lines kept so far that use no other shared pieces.
func (j *dominance) removed(buckets map[[2]int][]*bucket, s *sig, f *figures) bool {
	const none = catalog.None
	for i, key := range [4][2]int{{none, none}, {none, s.shared[0]}, {none, s.shared[1]}, s.shared} {
		if i > 0 && key[1] == none || i == 3 && key[0] == none {
			continue // looked through already
		}
		for _, b := range buckets[key] {
			if !j.within(&b.sig, s) {
				continue
			}
			for k := range b.kept {
				if j.noWorse(&b.kept[k], &b.sig, f, s) {
					return true
				}
			}
		}
	}
	return false
}

// within says whether signature a needs nothing that b does not need, and agrees
// with it where they have to agree. The shared pieces are known to be.
func (j *dominance) within(a, b *sig) bool {
	if a.gradeOf != b.gradeOf || a.toneOf != b.toneOf || a.freshOf != b.freshOf || a.sentTo != b.sentTo ||
		a.lot != b.lot || a.choice != b.choice || a.variant != catalog.None && a.variant != b.variant {
		return false
	}
	if b.got != catalog.None && a.got != b.got {
		return false
	}
	for _, x := range a.bundles {
		if x != catalog.None && x != b.bundles[0] && x != b.bundles[1] {
			return false
		}
	}
	return (a.plater == catalog.None || a.plater == b.plater) && (a.vendor == catalog.None || j.buysFrom(b, a.vendor))
}

// buysFrom says whether a line needs a vendor, by itself or for a bundle.
func (j *dominance) buysFrom(s *sig, vendor int) bool {
	if s.vendor == vendor {
		return true
	}
	for _, x := range s.bundles {
		if x != catalog.None && j.st.Bundles[x].Vendor == vendor {
			return true
		}
	}
	return false
}

// noWorse compares the figures of a line a that comes before b in the order.
func (j *dominance) noWorse(a *figures, as *sig, b *figures, bs *sig) bool {
	if j.counts.mean && a.grade < b.grade || j.counts.completion && a.loss > b.loss {
		return false
	}
	fill := catalog.Cents(0)
	if bs.plater != catalog.None {
		gone := min(b.load, int64(j.st.Platers[bs.plater].Minimum))
		if as.plater == bs.plater {
			gone -= a.load
		}
		fill = catalog.Cents(max(0, gone))
	}
	if a.cost+fill == b.cost && slices.Compare(a.tie[:], b.tie[:]) > 0 {
		return false // as good as that only with what fills the minimum, and b has the better keys
	}
	return a.cost+fill <= b.cost && (!j.counts.budget || a.budgeted+j.markedCent*int64(fill) <= b.budgeted)
}
