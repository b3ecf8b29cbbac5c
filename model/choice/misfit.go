package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// MayNotFit is what a reproduction that nobody has tried rests on.
const MayNotFit plan.Assumption = "the chance that a reproduction doesn't fit"

// misfit is the chance that a piece turns out not to fit a slot: nothing but for a
// reproduction, made by somebody who may never have seen the object. Nothing either where
// it has been tried, where it is known what handwork it takes, or where it has gone on to
// a plater or hangs: nobody plates what he has not held up to the object.
func misfit(st *catalog.State, p *catalog.Piece, slot int) catalog.Micro {
	known := p.Tried || p.Fitted || p.Sent.Was || p.Stage != catalog.StageSeen || Fitting(p, slot) != nil
	if p.Kind != catalog.Reproduction || known {
		return 0
	}
	return st.Shop.Misfit.Or(0)
}

// wayBack is what it costs to send a choice's pieces back to the vendor: his freight, once.
// What came out of a bundle, or lay in a drawer, stays there.
func wayBack(st *catalog.State, c *plan.Choice) catalog.Cents {
	if v := DirectVendor(st, c); v != catalog.None && c.Misfit > 0 {
		return st.Vendors[v].Freight
	}
	return 0
}

// Returned is what a choice costs that came and didn't fit: the way back, and as a
// fallback, which pays its own freight, the way here too.
func Returned(st *catalog.State, c *plan.Choice, standsIn bool) catalog.Cents {
	if v := DirectVendor(st, c); v != catalog.None && standsIn {
		return c.Back + st.Vendors[v].Freight
	}
	return c.Back
}
