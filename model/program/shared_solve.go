package program

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// firstPairs is how many columns there are at first for what is shared, about.
const firstPairs = 20_000

// SharedSpares finds the cheapest plan in which two slots may hold one spare together, and
// beside it the cheapest in which every spare is held for one slot: the search starts
// from that one, which takes half of the context's time at most.
func SharedSpares(ctx context.Context, st *catalog.State, set solver.Settings) (two, one *plan.Plan, err error) {
	return sharedSpares(ctx, st, set, firstPairs)
}

func sharedSpares(ctx context.Context, st *catalog.State, set solver.Settings,
	pairs int) (two, one *plan.Plan, err error) {
	began := time.Now()
	half, done := Portion(ctx, 0.5)
	defer done()
	if one, err = Solve(half, st, set); err != nil {
		return nil, nil, err
	}
	p := CompileWithin(ctx, st, Options{SharedSpares: true, FixedLimits: true, pairsAtMost: pairs})
	if two = p.Unfillable(ctx); two != nil && !p.GaveUp {
		return two, one, nil
	}
	two, err = p.solveSplitting(ctx, one, set)
	if two != nil {
		two.Result.Time = time.Since(began)
	}
	return two, one, err
}

// solveSplitting looks for plans that are cheaper than the one in hand, and splits cells
// until none is left: then the plan in hand is the cheapest.
func (p *Program) solveSplitting(ctx context.Context, one *plan.Plan, set solver.Settings) (*plan.Plan, error) {
	best := p.noPlan()
	if one.Has {
		own := *one
		best = &own
	}
	if p.GaveUp {
		return p.stoppedAt(best, NotMade(ctx)), nil
	}
	for {
		ch := solver.Change{}
		if best.Has {
			below := int64(best.Weighed())
			ch.Below = &below
		}
		res, err := SolveOnce(ctx, p.Problem, ch, set)
		if err != nil {
			return nil, err
		}
		if res.Has && p.exact(res) {
			found, err := p.Finish(res)
			if err != nil {
				return nil, err
			}
			best = found
		}
		switch {
		case res.Status == solver.Infeasible:
			return proven(best, res), nil
		case res.Status == solver.Stopped:
			return p.stoppedAt(best, res), nil
		case p.exact(res):
			return best, nil
		}
		if plan := p.Plan(res); (!best.Has || plan.Weighed() < best.Weighed()) && p.pairsAllowed(res) {
			plan.Status, plan.Bound = solver.Stopped, catalog.Cents(res.Bound)+plan.Keeps
			if len(check.Check(p.State, plan)) == 0 {
				best = plan
			}
		}
		p.split(res)
	}
}

// proven is the plan in hand, or that there is none, once nothing is below it.
func proven(plan *plan.Plan, res solver.Result) *plan.Plan {
	plan.Status, plan.Stop, plan.Result = solver.Infeasible, res.Stop, res
	if plan.Has {
		plan.Status, plan.Bound = solver.Optimal, plan.Expected
		plan.Result.Status = solver.Optimal
	}
	return plan
}

// stoppedAt is the plan in hand where the search ended early.
func (p *Program) stoppedAt(plan *plan.Plan, res solver.Result) *plan.Plan {
	plan.Status, plan.Stop, plan.Result = solver.Stopped, res.Stop, res
	plan.Bound = max(catalog.Cents(res.Bound), p.leastWeighed()) + plan.Keeps
	if plan.Has {
		plan.Bound = min(plan.Bound, plan.Expected)
	}
	return plan
}

// leastWeighed is less than any plan can come to: the cheapest choice of every slot, with
// nothing that fails, all kept that may be, and a credit for every trade.
func (p *Program) leastWeighed() catalog.Cents {
	st, sum := p.State, catalog.Cents(0)
	for s, choices := range p.Choices {
		if choices == nil { // time ended before
			choices = choice.ChoicesFor(st, s)
		}
		least := catalog.Cents(catalog.MaxSum)
		for i := range choices {
			least = min(least, choices[i].ExpectedCost)
		}
		if len(choices) > 0 {
			sum += least - 1 - st.Slots[s].Keep // what yielding saves is rounded
		}
	}
	for i := range st.Trades {
		sum -= st.Trades[i].Credit
	}
	return sum
}
