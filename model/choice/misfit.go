package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// Untried says whether nobody knows yet that a piece fits a slot: of a reproduction, made
// by somebody who may never have seen the object, until it has been tried, until it is known
// what handwork it takes, or until it has gone on to a plater or hangs: nobody plates what
// he has not held up to the object.
func Untried(p *catalog.Piece, slot int) bool {
	known := p.Tried || p.FittedIn(slot) || p.Sent.Was || p.Stage != catalog.StageSeen || Fitting(p, slot) != nil
	return p.Kind == catalog.Reproduction && !known
}

// misfit is the chance that a piece turns out not to fit a slot: what the shop reckons with
// where the piece is untried.
func misfit(st *catalog.State, p *catalog.Piece, slot int) catalog.Micro {
	if !Untried(p, slot) {
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
