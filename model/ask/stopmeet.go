package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// noEnd is a price that nobody names: whatever is worth it has no end.
const noEnd = catalog.Cents(10_000_000_00)

// whereTheyMeet is the price at which going on costs as much as doing otherwise.
func (u *underWay) whereTheyMeet(plan *plan.Plan, s int, instead *plan.Plan, fee catalog.Cents) StopPrice {
	c := plan.Lines[s].Choice
	n := catalog.Cents(choice.Needed(&u.st.Slots[s]))
	p := StopPrice{Slot: s, Choice: c, Planned: c.Plate / n, NoOther: !instead.Has}
	goesOn := func(one catalog.Cents) bool {
		weighed, whole := u.atPrice(plan, c, one)
		if p.ByBudget = u.before.Job.Budget.Set && whole.BudgetLeft() < 0; p.ByBudget {
			return false
		}
		return !instead.Has || weighed <= instead.Weighed()+fee
	}
	yes, no := p.Planned, p.Planned+firstOver
	for no < noEnd && goesOn(no) {
		yes, no = no, 2*no
	}
	for no-yes > 1 {
		if middle := (yes + no) / 2; goesOn(middle) {
			yes = middle
		} else {
			no = middle
		}
	}
	goesOn(no)
	p.Highest = yes
	return p
}

// atPrice is what it costs to go on with the plan once everything is sent, less what that
// keeps, with another price for the plater's work on one piece, wherever the plan has it;
// and the whole plan at that price, for its budget.
func (u *underWay) atPrice(pl *plan.Plan, c *plan.Choice, one catalog.Cents) (weighed catalog.Cents, whole *plan.Plan) {
	total, keeps := carriedOut(u.st, pl, func(o *plan.Choice) *plan.Choice {
		k := u.find(o)
		if k == nil {
			return o
		}
		if o.Piece == c.Piece && k.Sent {
			priced := *k
			priced.Refused = 0
			priced.Plate = one * catalog.Cents(choice.Needed(&u.st.Slots[o.Slot]))
			choice.AddUp(&priced)
			return &priced
		}
		return k
	})
	priced := *pl
	whole = &priced
	whole.Lines = slices.Clone(pl.Lines)
	whole.Expected = total + u.before.Job.Budget.V - u.st.Job.Budget.V
	for i := range whole.Lines {
		if k := *whole.Lines[i].Choice; k.Piece == c.Piece && k.Plater == c.Plater {
			plate := one * catalog.Cents(choice.Needed(&u.st.Slots[k.Slot]))
			whole.Outlay += plate - k.Plate
			k.Plate = plate
			whole.Lines[i].Choice = &k
		}
	}
	return total - keeps, whole
}
