package record

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/catalog/event"
)

// lotCharges books what a lot costs besides its work: all of it or, where the kept plan sends
// some of the pieces in a lot that jobs have in common, this job's shares.
func (b *builder) lotCharges(q int, lot string, pieces []int, work catalog.Cents, alone bool) {
	plater := &b.st.Platers[q]
	common := !alone && slices.ContainsFunc(pieces, func(i int) bool { return b.keptSends(i, plater.ID) })
	book := func(kind catalog.ShareKind, whole catalog.Cents, what, ofWhat string) {
		if common {
			if share, shared := b.takeShare(kind, plater.ID); shared {
				b.spend(share, catalog.None, "share of %s of %s, lot %s", ofWhat, plater.ID, lot)
				return
			}
		}
		b.spend(whole, catalog.None, "%s", what)
	}
	book(catalog.ShareFreight, plater.Freight, fmt.Sprintf("freight of %s, lot %s", plater.ID, lot), "the freight")
	book(catalog.ShareLeast, max(0, plater.Minimum-work), upToLeast(plater.ID, lot), "what is missing to the least lot")
}

// keptSends says whether the kept plan has a piece go to a plater.
func (b *builder) keptSends(i int, plater string) bool {
	return b.st.Kept != nil && slices.ContainsFunc(b.st.Kept.Lines, func(l catalog.KeptLine) bool {
		return l.Piece == b.st.Pieces[i].Key() && l.Plater == plater
	})
}

// takeShare gives what the kept plan has the job pay of something, which is booked by this
// act; shared is false where the job has it for itself.
func (b *builder) takeShare(kind catalog.ShareKind, of string) (cents catalog.Cents, shared bool) {
	s := b.st.Kept.ShareOf(kind, of)
	if s == nil {
		return 0, false
	}
	b.clear(false, event.Of(event.TableShare, s.ID))
	return s.Cents, true
}

// free takes a piece of the shop's out of a bundle that several jobs pay for: it is the
// shop's, paid for, and there for each of them.
func (b *builder) free(i int) {
	_, target := b.of(i)
	b.set(true, target, event.KeyOwner, "shop")
	b.set(true, target, event.KeyPrice, "0.00")
	b.set(true, target, event.KeyBundle, nil)
	b.set(true, target, event.KeyChance, int64(1))
	b.set(true, target, event.KeyDays, int64(0))
}
