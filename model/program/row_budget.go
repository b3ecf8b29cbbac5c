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
// expected, the minimised total does: E in place of cash.
func (p *Program) budgetRow() {
	p.row(solver.Row{Name: "budget", Sense: solver.AtMost, Charges: true, Tag: TagBudget,
		Limit: int64(p.State.Job.Budget.Or(catalog.Cents(NoLimit)))})
}

func (p *Program) BudgetCoef(k *plan.Choice, pair Pair) int64 {
	if p.State.Job.BudgetOn == catalog.OnExpected {
		return int64(pair.Expected)
	}
	return int64(k.Cash)
}
