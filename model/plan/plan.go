package plan

import (
	"brightset/catalog"
	"brightset/solver"
)

// ChargeOf is the sum a plan charges of a kind for one plater, vendor, bundle or trade, by its
// index in the state; 0 where it charges none.
func ChargeOf(plan *Plan, kind ChargeKind, of int) catalog.Cents {
	sum := catalog.Cents(0)
	for _, c := range plan.Charges {
		if c.Kind == kind && c.Of == of {
			sum += c.Cents
		}
	}
	return sum
}

// Status says what is known of a plan, Stop why the search for it ended. They are the
// solver's, named here so that whoever judges a plan needs nothing of the solver.
type (
	Status = solver.Status
	Stop   = solver.Stop
)

// What is known of a plan.
const (
	Optimal    = solver.Optimal
	Infeasible = solver.Infeasible
	Stopped    = solver.Stopped
)

// Plan is one line per slot, the charges, and what is known of its being the
// cheapest.
type Plan struct {
	Of         *catalog.State // what it is a plan of: what its indices mean; never nil
	Status     Status
	Stop       Stop
	Best       bool // the highest finish was asked for, then the least total
	Has        bool // Lines, Charges and the sums are valid
	Lines      []Line
	Charges    []Charge
	Expected   catalog.Cents // the minimised total
	Keeps      catalog.Cents // what the object's own pieces in it are worth to the owner: no money
	Bound      catalog.Cents // nothing that meets the target is below, at what this plan keeps
	Outlay     catalog.Cents // planned to be spent if all goes well
	Grade      float64       // weighted mean of the chosen pieces
	Completion float64       // chance that no slot needs a rescue, exact product
	Warnings   []string
	Reasons    []string      // where there is no plan: what is already known of why
	Unfilled   []Unfilled    // what the reasons are about, slot by slot
	Result     solver.Result // nodes, time
}

// Unfilled is a slot that nothing can fill.
type Unfilled struct {
	Slot int
	Best *Choice // the choice of the highest grade; nil: no piece fits the slot
	Hung bool    // it is the piece that hangs there
	Why  string  // why that one is out
}

// Line is the choice for one slot and the one held in reserve.
type Line struct {
	Slot     int
	Choice   *Choice
	Fallback *Choice       // nil where there is none
	Expected catalog.Cents // paid, plus what failing costs
	Keeps    catalog.Cents // what keeping is worth here, by the chances of choice and fallback: no money
	Sharing  *Sharing      // nil where the fallback is held for this slot alone
}

// ChargeKind says what a charge is for.
type ChargeKind string

const (
	ChargeMinimum       ChargeKind = "minimum"
	ChargePlaterFreight ChargeKind = "plater-freight"
	ChargeVendorFreight ChargeKind = "vendor-freight"
	ChargeBundle        ChargeKind = "bundle"
	ChargeTrade         ChargeKind = "trade"  // negative: a credit
	ChargeEvened        ChargeKind = "evened" // between jobs that are planned together
)

// Charge is a sum that belongs to no single line. Of is an index into the
// platers, vendors, bundles or trades of the state.
type Charge struct {
	Kind  ChargeKind
	Of    int
	Cents catalog.Cents
}
