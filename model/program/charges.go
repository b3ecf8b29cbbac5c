package program

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// TagLot marks a plater's freight and minimum, TagVendor a vendor's freight,
// TagBundle the price of a bundle.
func TagLot(plater string) solver.Tag { return solver.Tag("lot " + plater) }

func TagVendor(vendor string) solver.Tag { return solver.Tag("vendor " + vendor) }

func TagBundle(bundle string) solver.Tag { return solver.Tag("bundle " + bundle) }

// PlaterSwitch, VendorSwitch and BundleSwitch are the switches of a plater, a
// vendor and a bundle; trades follow them.
func (p *Program) PlaterSwitch(q int) int { return q }

func (p *Program) VendorSwitch(v int) int { return len(p.State.Platers) + v }

func (p *Program) BundleSwitch(b int) int { return p.VendorSwitch(len(p.State.Vendors)) + b }

// platerSwitches: freight + max(0, minimum - sum of work sent there) for every
// plater some chosen k is plated by, and has yet to be sent to. A lot is sent once, and he charges for it
// at least his minimum.
func (p *Program) platerSwitches() {
	for i := range p.State.Platers {
		q := &p.State.Platers[i]
		p.Problem.Switches = append(p.Problem.Switches, solver.Switch{
			Name: "plater " + q.ID, Fixed: int64(q.Freight), Minimum: int64(q.Minimum), Tag: TagLot(q.ID)})
	}
}

// vendorSwitches: freight for every vendor some chosen k, not out of a bundle,
// or some bundle is bought from.
func (p *Program) vendorSwitches() {
	for i := range p.State.Vendors {
		v := &p.State.Vendors[i]
		p.Problem.Switches = append(p.Problem.Switches, solver.Switch{
			Name: "vendor " + v.ID, Fixed: int64(v.Freight), Tag: TagVendor(v.ID)})
	}
}

// bundleSwitches: the price of every bundle some chosen k or f comes out of, and of the first
// box of what is sold by the box. It needs its vendor.
func (p *Program) bundleSwitches() {
	for i := range p.State.Bundles {
		b := &p.State.Bundles[i]
		sw := solver.Switch{Name: "bundle " + b.ID, Fixed: int64(b.Price), Tag: TagBundle(b.ID)}
		if b.Vendor != catalog.None {
			sw.Needs = []int{p.VendorSwitch(b.Vendor)}
		}
		p.Problem.Switches = append(p.Problem.Switches, sw)
	}
}

// Needs is the switches a line turns on, ascending. Of the fallback only a
// bundle: its freights and its plater's minimum are within its own cost.
func (p *Program) Needs(k, f *plan.Choice) []int {
	var on []int
	if k.InLot() {
		on = append(on, p.PlaterSwitch(k.Plater))
	}
	vendor, bundle := owed(p.State, k)
	if vendor != catalog.None {
		on = append(on, p.VendorSwitch(vendor))
	}
	if bundle != catalog.None {
		on = append(on, p.BundleSwitch(bundle))
	}
	if f != nil {
		if _, bundle := owed(p.State, f); bundle != catalog.None {
			on = append(on, p.BundleSwitch(bundle))
		}
	}
	slices.Sort(on)
	return slices.Compact(on)
}

// owed is the vendor and the bundle a choice's piece has to be bought from.
func owed(st *catalog.State, c *plan.Choice) (vendor, bundle int) {
	return choice.DirectVendor(st, c), st.Pieces[c.Piece].Bundle
}
