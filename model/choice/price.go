package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// IfItComes is what a choice costs if its piece comes, sending back reckoned in, and with
// its share of a bundle: what is asked for it, whatever the chance.
func IfItComes(st *catalog.State, c *plan.Choice) catalog.Cents {
	return c.Get + c.Give + c.Before + catalog.Of(c.Refused, c.Strip) + catalog.Of(catalog.One-c.Refused,
		c.Plate+c.Other) +
		Share(st, c)
}

// Share is the part of a bundle's price that falls on the pieces of a choice, if every piece
// of the bundle bears as much, half up; 0 for a piece out of none. In a plan the bundle is
// bought whole, whatever is used of it.
func Share(st *catalog.State, c *plan.Choice) catalog.Cents {
	bundle := st.Pieces[c.Piece].Bundle
	if bundle == catalog.None {
		return 0
	}
	all := catalog.Cents(BundleCount(st, bundle))
	n := catalog.Cents(Needed(&st.Slots[c.Slot]))
	return (2*n*st.Bundles[bundle].Price + all) / (2 * all)
}

// BundleCount is how many pieces come out of a bundle, or out of a box.
func BundleCount(st *catalog.State, bundle int) int {
	if box := st.Bundles[bundle].Box; box > 0 {
		return box
	}
	n := 0
	for i := range st.Pieces {
		if st.Pieces[i].Bundle == bundle {
			n += PieceCount(&st.Pieces[i])
		}
	}
	return n
}

// Alone is what filling a slot with a choice is expected to cost by itself, a rescue behind
// it: by this the best of a slot is told.
func Alone(st *catalog.State, c *plan.Choice) catalog.Cents {
	return c.ExpectedCost + Share(st, c) + catalog.Of(c.Fails, Rescue(st, c.Slot))
}
