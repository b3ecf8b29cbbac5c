package paper

import (
	"maps"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Purchase is everything a plan buys from one seller: a vendor, the shop's own
// drawers (Side Shops, Vendor None), or a bundle that has no vendor.
type Purchase struct {
	Side    catalog.Side
	Vendor  int           // catalog.None for the drawers and for a bundle without vendor
	Lines   []int         // indices into the plan's lines whose piece is bought singly
	Bundles []int         // and what is bought by the box
	Pieces  catalog.Cents // prices of the single pieces
	Bundled catalog.Cents // prices of the bundles
	Freight catalog.Cents
	Total   catalog.Cents
}

// Purchases gives what a plan buys: from the drawers, then from the vendors in
// their order, then bundles without a vendor. Fallbacks are bought only when
// they are needed, except as part of a bundle.
func Purchases(pl *plan.Plan) []Purchase {
	sellers := []Purchase{{Side: catalog.Shops, Vendor: catalog.None}}
	for v := range pl.Of.Vendors {
		sellers = append(sellers,
			Purchase{Side: catalog.Vendors, Vendor: v, Freight: plan.ChargeOf(pl, plan.ChargeVendorFreight, v)})
	}
	sellers = append(sellers, Purchase{Side: catalog.Vendors, Vendor: catalog.None})
	for i := range pl.Lines {
		k := pl.Lines[i].Choice
		p := pl.PieceOf(k)
		if p.Side == catalog.Customers || p.Bundle != catalog.None || (p.Side == catalog.Shops && takenOut(p)) {
			continue
		}
		seller := 0
		if v := choice.DirectVendor(pl.Of, k); v != catalog.None {
			seller = v + 1
		}
		sellers[seller].Lines = append(sellers[seller].Lines, i)
		sellers[seller].Pieces += k.Get
	}
	for _, b := range boughtBundles(pl) {
		seller := len(sellers) - 1
		if v := pl.Of.Bundles[b].Vendor; v != catalog.None {
			seller = v + 1
		}
		sellers[seller].Bundles = append(sellers[seller].Bundles, b)
		sellers[seller].Bundled += plan.ChargeOf(pl, plan.ChargeBundle, b)
	}
	var list []Purchase
	for _, s := range sellers {
		if len(s.Lines)+len(s.Bundles) == 0 {
			continue
		}
		s.Total = s.Pieces + s.Bundled + s.Freight
		list = append(list, s)
	}
	return list
}

// takenOut says whether a piece of the shop's is out of the drawer already, and nothing
// is to be paid for it any more.
func takenOut(p *catalog.Piece) bool {
	return p.Price == 0 && (p.Stage != catalog.StageSeen || p.Sent.Was || p.Days.From.Source == catalog.Recorded)
}

// boughtBundles are the bundles, and what is bought by the box, that some chosen or reserved
// piece comes out of.
func boughtBundles(pl *plan.Plan) []int {
	return slices.Sorted(maps.Keys(plan.BundlesOf(pl.Of, pl.Lines)))
}
