package ask

import (
	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// stopsAt is where to stop if the cheapest set otherwise is this one: or, where it is not
// proven to be that, between where it would be for what no set is below, and for this one.
func (u *underWay) stopsAt(pl *plan.Plan, s int, instead *plan.Plan, fee catalog.Cents) *StopPrice {
	p := u.whereTheyMeet(pl, s, instead, fee)
	if p.Most = p.Highest; instead.Status != solver.Stopped {
		return &p
	}
	if p.NoOther && !p.ByBudget {
		p.Most = catalog.Cents(catalog.MaxSum) // none was found
	}
	least := u.whereTheyMeet(pl, s, &plan.Plan{Has: true, Expected: noneBelow(instead)}, fee)
	least.Most = p.Most
	return &least
}

// known is the price, or nil where no more is known than that going on is right as planned.
func (p *StopPrice) known() *StopPrice {
	if !p.Proven() && p.Highest <= p.Planned && p.Most >= catalog.Cents(catalog.MaxSum) {
		return nil
	}
	return p
}

// Proven says whether it is known where to stop.
func (p *StopPrice) Proven() bool { return p.Highest == p.Most }
