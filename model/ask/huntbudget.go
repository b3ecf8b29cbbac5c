package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// between is what finds that are used together are worth at least and at most, all of them
// bought for one price, with the cheapest set that they make possible: the highest price at
// which a set with them keeps the budget and costs no more than the set without them. Where
// nothing meets the target without, no set is too dear: only the budget ends it.
func (h *hunt) between(ctx context.Context, base, with *plan.Plan, finds ...int) (
	least, most catalog.Cents, err error) {
	least, most = h.room(with), h.mostRoom()
	if base.Has {
		least, most = max(0, min(noneBelow(base)-with.Weighed(), least)), max(0, base.Weighed()-noneBelow(with))
		if noneBelow(with) <= -catalog.Cents(catalog.MaxSum) {
			most = catalog.Cents(catalog.MaxSum)
		}
	}
	if base.Status == solver.Stopped {
		return least, most, nil
	}
	return h.narrow(ctx, base, least, most, finds)
}

// noneBelow is what no plan is below in what plans are compared by.
func noneBelow(p *plan.Plan) catalog.Cents { return p.Bound - p.Keeps }

// room is what a plan leaves of the budget; no end where there is none.
func (h *hunt) room(p *plan.Plan) catalog.Cents {
	job := &h.st.Job
	switch {
	case !job.Budget.Set:
		return catalog.Cents(catalog.MaxSum)
	case job.BudgetOn == catalog.OnQuote:
		q := &h.st.Quote
		return plan.Unmarked(q.Parts, plan.OwnerNet(q, job.Budget.V+job.SpentSum)-p.ForOwner().Net)
	}
	return p.LeftOf(job)
}

// mostRoom is what no plan leaves more of the budget than: the whole of it, where nothing but
// finds is paid for, and all that trades may bring in.
func (h *hunt) mostRoom() catalog.Cents {
	if !h.st.Job.Budget.Set {
		return catalog.Cents(catalog.MaxSum)
	}
	most := h.st.Job.Budget.V
	for i := range h.st.Trades {
		most += h.st.Trades[i].Credit
	}
	return most
}

// narrow brings together what finds are worth at least and at most. A set found for one price
// says which it stands up to: the cheapest need not be the one that leaves most of the budget.
// The next price is a step above that, a longer one after each set that is found. After none
// is, it is the very next: there most often is none either, which then is the end of it.
func (h *hunt) narrow(ctx context.Context, base *plan.Plan, least, most catalog.Cents, finds []int) (
	catalog.Cents, catalog.Cents, error) {
	for step := catalog.Cents(1); least < most; {
		price := least + min(step, most-least)
		res, err := h.affordable(ctx, base, price, finds)
		switch {
		case err != nil:
			return 0, 0, err
		case res.Has:
			with, err := h.e.Finish(res)
			if err != nil {
				return 0, 0, err
			}
			stands := min(most, h.room(with))
			if base.Has {
				stands = min(stands, base.Weighed()-with.Weighed())
			}
			least, step = max(price, stands), 8*step
		case res.Status == solver.Infeasible:
			most, step = price-1, 1
		default:
			return least, most, nil
		}
	}
	return least, most, nil
}

// affordable asks with the budget lowered by the price: paying it for finds that are sure to
// be used is the same as having so much less.
func (h *hunt) affordable(ctx context.Context, base *plan.Plan, price catalog.Cents, finds []int) (
	solver.Result, error) {
	below := catalog.MaxSum // whatever the set costs
	if base.Has {
		below = int64(base.Weighed() - price + 1)
	}
	ch := solver.Change{Ban: h.ban(finds...), Below: &below, Any: true}
	if h.st.Job.Budget.Set {
		ch.Limits = []solver.LimitTo{{Row: program.RowBudget, Limit: h.e.BudgetLimit(price)}}
	}
	return h.e.Fork().Least(ctx, ch)
}
