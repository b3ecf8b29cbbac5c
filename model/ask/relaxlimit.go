package ask

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// extreme gives the least sum over a free state's sets of what value says of each
// line; with charges, of what is charged too. known is false if time ran out.
func (x *explainer) extreme(free *catalog.State, charges bool,
	value func(p *program.Program, s, i int) int64) (least int64, known bool, err error) {
	p := program.CompileWithin(x.clock.ctx, free, program.Options{})
	if p.GaveUp {
		x.stopped = true
		return 0, false, nil
	}
	problem := *p.Problem
	problem.Uncharged = !charges
	problem.Groups = make([]solver.Group, len(p.Problem.Groups))
	for s, g := range p.Problem.Groups {
		problem.Groups[s] = solver.Group{Name: g.Name, Columns: slices.Clone(g.Columns)}
		for i := range g.Columns {
			problem.Groups[s].Columns[i].Cost = value(p, s, i)
		}
	}
	set, ok := x.clock.next()
	if !ok {
		x.stopped = true
		return 0, false, nil
	}
	res, err := program.SolveOnce(x.clock.ctx, &problem, solver.Change{}, set)
	if err != nil || !res.Has {
		x.stopped = x.stopped || err == nil
		return 0, false, err
	}
	x.stopped = x.stopped || res.Status == solver.Stopped
	return res.Total, res.Status == solver.Optimal, nil
}

// moreBudget: the least that any set takes of what the budget is for.
func (x *explainer) moreBudget(free *catalog.State, fits *plan.Plan) (*catalog.State, string, error) {
	if x.st.Job.BudgetOn == catalog.OnQuote {
		return x.moreQuoted(fits)
	}
	sum, known, err := x.extreme(free, true, func(p *program.Program, s, i int) int64 {
		k, _ := p.Line(s, p.Pairs[s][i])
		return p.BudgetCoef(k, p.Pairs[s][i])
	})
	if !known {
		return nil, "more money", err
	}
	st, words := x.withBudget(catalog.Cents(sum))
	return st, words, nil
}

// withBudget is the job with another budget for what is still to come.
func (x *explainer) withBudget(left catalog.Cents) (st *catalog.State, words string) {
	st = x.st.Clone()
	st.Job.Budget.V = left
	return st, fmt.Sprintf("with %s more, a budget of %s, it fits", catalog.FormatMoney(left-x.st.Job.Budget.V),
		catalog.FormatMoney(left+st.Job.SpentSum))
}

// moreQuoted halves down to the least that the owner is quoted for any set, from what he
// is for one that fits.
func (x *explainer) moreQuoted(fits *plan.Plan) (*catalog.State, string, error) {
	no := x.st.Job.Budget.V
	yes := no - fits.LeftOf(&x.st.Job)
	for yes-no > 1 {
		st, _ := x.withBudget(no + (yes-no)/2)
		found, err := x.solve(st, false)
		if err != nil || found == nil {
			return nil, "more money", err
		}
		if found.Has {
			yes = st.Job.Budget.V - max(0, found.BudgetLeft())
		} else {
			no = st.Job.Budget.V
		}
	}
	st, words := x.withBudget(yes)
	return st, words, nil
}

// lowerMean: the highest mean any set reaches, in whole hundredths.
func (x *explainer) lowerMean(free *catalog.State) (*catalog.State, string, error) {
	sum, known, err := x.extreme(free, false, func(p *program.Program, s, i int) int64 {
		k, _ := p.Line(s, p.Pairs[s][i])
		return -program.Weighted(free, k)
	})
	if !known {
		return nil, "a lower mean", err
	}
	st := x.st.Clone()
	st.Job.Target.Mean.V = catalog.Centi(-sum / program.TotalWeight(free))
	return st, fmt.Sprintf("with a mean of %s instead of %s it fits", plan.Centi(st.Job.Target.Mean.V),
		plan.Centi(x.st.Job.Target.Mean.V)), nil
}

// lowerChance: the highest chance that no slot needs a rescue, rounded down to a
// hundredth of a percent.
func (x *explainer) lowerChance(free *catalog.State) (*catalog.State, string, error) {
	sum, known, err := x.extreme(free, false, func(p *program.Program, s, i int) int64 {
		k, f := p.Line(s, p.Pairs[s][i])
		return choice.LogLoss(choice.BothFail(k, f))
	})
	if !known {
		return nil, "a lower chance", err
	}
	st := x.st.Clone()
	low, high := catalog.Micro(0), x.st.Job.Completion.V/100 // in ten-thousandths
	for low < high {
		middle := (low + high + 1) / 2
		if program.CompletionLimit(free, middle*100) >= sum {
			low = middle
		} else {
			high = middle - 1
		}
	}
	st.Job.Completion.V = low * 100
	return st, fmt.Sprintf("with a chance of %s instead of %s that no slot needs a rescue it fits",
		plan.Percent(st.Job.Completion.V), plan.Percent(x.st.Job.Completion.V)), nil
}

// laterDate halves down to the least number of days.
func (x *explainer) laterDate(plan *plan.Plan) (*catalog.State, string, error) {
	at := func(days int) *catalog.State {
		st := x.st.Clone()
		st.Job.WithinDays.V = days
		return st
	}
	no, yes := x.st.Job.WithinDays.V, 0
	for i := range plan.Lines {
		yes = max(yes, choice.DaysAtLatest(x.st, &plan.Lines[i]))
	}
	for yes-no > 1 {
		middle := (no + yes) / 2
		found, err := x.solve(at(middle), true)
		if err != nil || found == nil {
			return nil, "more days", err
		}
		if found.Has {
			yes = middle
		} else {
			no = middle
		}
	}
	return at(yes), fmt.Sprintf("with %d days instead of %d it fits", yes, x.st.Job.WithinDays.V), nil
}

// lowerFloor: the highest grade a slot can be asked for, all else kept; where that
// does not help, the slot has to do without being fresh or lasting.
func (x *explainer) lowerFloor(i int) (*catalog.State, string, error) {
	s := x.all[i].index
	slot := &x.st.Slots[s]
	if !slot.Target.Floor.Set {
		return nil, without(x.st, &x.all[i]), nil
	}
	at := func(v catalog.Centi) *catalog.State {
		st := x.st.Clone()
		st.Slots[s].Target.Floor.V = v
		return st
	}
	var grades []catalog.Centi
	for _, c := range choice.ChoicesFor(x.st, s) {
		if c.Grade < slot.Target.Floor.V {
			grades = append(grades, c.Grade)
		}
	}
	slices.Sort(grades)
	grades = slices.Compact(grades)
	low, high := -1, len(grades) // grades[low] fits, grades[high] does not
	for high-low > 1 {
		middle := (low + high) / 2
		found, err := x.solve(at(grades[middle]), true)
		if err != nil || found == nil {
			return nil, "a lower grade for " + slot.ID, err
		}
		if found.Has {
			low = middle
		} else {
			high = middle
		}
	}
	if low < 0 {
		return nil, without(x.st, &x.all[i]), nil
	}
	return at(grades[low]), fmt.Sprintf("with grade %s instead of %s for %s it fits", plan.Centi(grades[low]),
		plan.Centi(slot.Target.Floor.V), slot.Name), nil
}
