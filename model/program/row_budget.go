package program

import (
	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// TagBudget marks the budget row.
const TagBudget solver.Tag = "budget"

// budgetRow, on outlay:
//
//	sum over slots of cash(k) + charges - credits <= budget
//
// What is planned to be spent if all goes well stays within the budget. On
// expected, the minimised total does: E in place of cash. On quote, what the owner
// pays does, markups, labour and tax included:
//
//	net + tax on net <= budget
//	net = what is spent, marked + sum over slots of quoted(k) - credits + charges with their markups, rounded
//
// that is, with the highest net N that keeps the budget, and in parts of a cent, U of
// them, in which the markups on charges come out even:
//
//	sum of U quoted(k) - U credits + sum of (U + U markup) charges <= U (N - spent) + (U-1) div 2
//
// Marked-up charges are kept on an account of their own: the total counts what they cost.
func (p *Program) budgetRow() {
	p.row(solver.Row{Name: "budget", Sense: solver.AtMost, Charges: true, Tag: TagBudget,
		Account: p.budgetAccount(), Limit: p.BudgetLimit(0)})
}

// quotes says whether the budget is on what the owner is quoted.
func quotes(st *catalog.State) bool { return st.Job.Budget.Set && st.Job.BudgetOn == catalog.OnQuote }

// BudgetLimit is the limit of the budget row if a piece has to be bought besides at a price
// that nobody has asked yet.
func (p *Program) BudgetLimit(price catalog.Cents) int64 {
	job, q := &p.State.Job, &p.State.Quote
	switch {
	case !job.Budget.Set:
		return NoLimit
	case !quotes(p.State):
		return int64(job.Budget.V - price)
	}
	net := plan.OwnerNet(q, job.Budget.V+job.SpentSum) - plan.OwnerSpent(p.State) - plan.Marked(price, q.Parts)
	const far = int64(NoLimit - 1) // beyond what any plan comes to
	return min(max(q.Unit()*int64(net)+(q.Unit()-1)/2, -far), far)
}

// BudgetCoef is what a line adds to the budget row.
func (p *Program) BudgetCoef(k *plan.Choice, pair Pair) int64 { return budgeted(p.State, k, pair) }

// budgeted is what a line that plans a choice adds to the row.
func budgeted(st *catalog.State, k *plan.Choice, pair Pair) int64 {
	switch {
	case st.Job.BudgetOn == catalog.OnExpected:
		return int64(pair.Expected)
	case quotes(st):
		return st.Quote.Unit() * int64(plan.OwnerLineOf(st, k).Total)
	}
	return int64(k.Cash)
}

// budgetAccount is the account that pays for charges in the budget row: with markups on
// them, one of its own.
func (p *Program) budgetAccount() int {
	if q := &p.State.Quote; quotes(p.State) && q.Plating+q.Parts > 0 {
		return 1
	}
	return 0
}

// markedSwitches, with that account, puts one beside every switch but those of trades, that
// charges what the owner is charged for it; credits come off in the row.
func (p *Program) markedSwitches() {
	if p.budgetAccount() == 0 {
		return
	}
	own, trades := p.Problem.Switches, p.TradeSwitch(0)
	for h, sw := range own[:trades] {
		markup := p.State.Quote.Parts
		if h < len(p.State.Platers) {
			markup = p.State.Quote.Plating
		}
		times := markedCent(p.State, markup)
		sw.Name, sw.Account, sw.Fixed, sw.Minimum = sw.Name+" to the owner", 1, times*sw.Fixed, times*sw.Minimum
		sw.Needs = p.marked(sw.Needs)
		if sw.Voluntary { // more boxes: the owner is charged for those that are bought
			p.Problem.Switches[h].Needs = []int{len(p.Problem.Switches)}
			sw.Voluntary, sw.Terms = false, nil
		}
		p.Problem.Switches = append(p.Problem.Switches, sw)
	}
	for h := trades; h < len(own); h++ {
		sw := &p.Problem.Switches[h]
		sw.Terms = append([]solver.Term{{Row: RowBudget, Coef: p.State.Quote.Unit() * sw.Fixed}}, sw.Terms...)
	}
}

// markedCent is a cent with a markup, in the units of the budget row.
func markedCent(st *catalog.State, markup catalog.Micro) int64 {
	if !quotes(st) {
		return 1
	}
	u := st.Quote.Unit()
	return u + u*int64(markup)/int64(catalog.One)
}

// marked gives the switches that charge the owner for what others cost.
func (p *Program) marked(on []int) []int {
	var out []int
	for _, h := range on {
		out = append(out, p.TradeSwitch(len(p.State.Trades))+h)
	}
	return out
}

// charge makes a column call for switches, and count towards its plater's minimum.
func (p *Program) charge(c *solver.Column, k, f *plan.Choice) {
	c.Needs = p.Needs(k, f)
	if k.InLot() && k.Plate > 0 {
		c.Loads = []solver.Load{{Switch: p.PlaterSwitch(k.Plater), Amount: int64(k.Plate)}}
	}
	if p.budgetAccount() == 0 {
		return
	}
	c.Needs = append(c.Needs, p.marked(c.Needs)...)
	for _, l := range c.Loads {
		c.Loads = append(c.Loads, solver.Load{Switch: p.marked([]int{l.Switch})[0],
			Amount: l.Amount * markedCent(p.State, p.State.Quote.Plating)})
	}
}
