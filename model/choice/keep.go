package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// Keeping is what it is worth to the owner that what hangs is the object's own:
//
//	keeps(c)    = (1 - p_c) keep of the slot if c's piece came off the object, else 0
//	keeps(k, f) = keeps(k) + p_k keeps(f);  keeps(k) where there is no f
//
// Plans are compared by what they cost less what they keep. It counts once for a slot,
// whatever its quantity, and is no money.

// keepOf is what it is worth that a piece hangs in a slot.
func keepOf(st *catalog.State, p *catalog.Piece, slot int) catalog.Cents {
	if !p.Off {
		return 0
	}
	return st.Slots[slot].Keep
}

// Keeps is what a line keeps; f is nil where there is no fallback.
func Keeps(k, f *plan.Choice) catalog.Cents {
	if f == nil {
		return k.Keeps
	}
	return k.Keeps + catalog.Of(k.Fails, f.Keeps)
}

// Weighed is what lines are compared by: what one is expected to cost less what it keeps.
func Weighed(st *catalog.State, k, f *plan.Choice) catalog.Cents {
	return Expected(st, k, f) - Keeps(k, f)
}
