package ask

import (
	"cmp"
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// Why is everything that can be done for one slot, with what the whole set comes
// to if it is done.
type Why struct {
	Slot         int
	Advised      *plan.Plan         // Has is false where there is no plan at all
	Alternatives []Alternative      // the cheapest whole set first; those without a plan last
	Outs         []choice.Exclusion // what a rule keeps out, and what can't be done
	Rules        []RulePrice        // the demands that have a say here
	Points       []Breakpoint
	// Unsettled are figures of which it is only known that the decision stands up to Last and, where
	// Turns says so, not beyond Most: time was up, or others are nearly as good over a long way.
	Unsettled []Breakpoint
	Stopped   bool // not every question was answered in time
}

// Alternative is one choice for the slot and the cheapest whole set with it.
type Alternative struct {
	Choice  *plan.Choice
	Plan    *plan.Plan    // Has is false where no set with it meets the demands, or none was found in time
	More    catalog.Cents // what the set comes to above the advised one
	Keeps   catalog.Cents // what more of the object's own it keeps is worth to the owner; below zero: less
	Reasons []plan.Cause  // what makes the difference, the biggest first; they add up to More
	Slack   bool          // the difference is within the error of the estimates
	// Least is More less Keeps where the set is proven to be the cheapest with it; where time was
	// up before, none with it is below that much above the advised one.
	Least catalog.Cents
}

// Proven says whether the cheapest set with the choice is known, or that there is none.
func (a *Alternative) Proven() bool {
	return a.Plan.Status != solver.Stopped || a.Plan.Has && a.Least == a.More-a.Keeps
}

// Taken says whether the way is the advised plan's own.
func (w *Why) Taken(way *Alternative) bool {
	return w.Advised.Has && plan.SameChoice(way.Choice, w.Advised.Lines[w.Slot].Choice)
}

// AskWhy solves the whole set once for every choice of a slot that the rules let
// in, and looks for the figures at which the decision turns.
func AskWhy(ctx context.Context, st *catalog.State, slot int, set solver.Settings) (*Why, error) {
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true, Keep: []int{slot}}, set)
	if err != nil {
		return nil, err
	}
	w := &Why{Slot: slot, Outs: e.OutsOf(slot)}
	if w.Advised, err = e.Ask(ctx, solver.Change{}); err != nil || !w.Advised.Has {
		return w, err
	}
	w.Stopped = w.Advised.Status == solver.Stopped
	if w.Stopped {
		return w, w.askAll(ctx, e)
	}
	most, done := program.Portion(ctx, 0.6) // some is for the demands and turns even where no way is proven in time
	defer done()
	if err := w.askAll(most, e); err != nil {
		return nil, err
	}
	half, over := program.Portion(ctx, 0.5)
	defer over()
	var whole bool
	if w.Rules, whole, err = rulePrices(half, e, slot, w.Advised); err != nil {
		return nil, err
	}
	w.Stopped = w.Stopped || !whole
	return w, w.findBreakpoints(ctx, e)
}

// askAll forces every choice, each by itself from what is known of the advised set: those
// first that may be the cheapest for all that is known.
func (w *Why) askAll(ctx context.Context, e *program.Explorer) error {
	all, floors := planned(e.Program, w.Slot), w.floors(ctx, e)
	order := slices.Clone(all)
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(floors[a], floors[b]) })
	plans := make([]*plan.Plan, len(e.Choices[w.Slot])) // by choice
	share := newShares(ctx, len(all))
	err := parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		c := &e.Choices[w.Slot][order[i]]
		if !plan.SameChoice(c, w.Advised.Lines[w.Slot].Choice) {
			only := e.Only(w.Slot, func(o *plan.Choice) bool { return o == c })
			plans[order[i]], err = e.Fork().Ask(within, solver.Change{Ban: only})
		}
		return err
	})
	if err != nil {
		return err
	}
	for _, k := range all {
		way := w.alternative(e.State, &e.Choices[w.Slot][k], plans[k], floors[k])
		w.Stopped = w.Stopped || !way.Proven()
		w.Alternatives = append(w.Alternatives, way)
	}
	w.sort()
	return nil
}

// floors are, per choice of the slot, what no set with it is below, before any is asked for.
func (w *Why) floors(ctx context.Context, e *program.Explorer) map[int32]catalog.Cents {
	out := map[int32]catalog.Cents{}
	for i, v := range e.Solver.Floors(ctx, w.Slot) {
		k, floor := e.Pairs[w.Slot][i].K, catalog.Cents(v)
		if least, ok := out[k]; !ok || floor < least {
			out[k] = floor
		}
	}
	return out
}

// alternative is a choice with the cheapest set with it that was found; nil where time was
// up before it was asked for.
func (w *Why) alternative(st *catalog.State, c *plan.Choice, pl *plan.Plan, floor catalog.Cents) Alternative {
	switch {
	case plan.SameChoice(c, w.Advised.Lines[w.Slot].Choice):
		pl = w.Advised
	case pl == nil && floor >= catalog.Cents(catalog.MaxSum):
		pl = &plan.Plan{Of: st, Status: solver.Infeasible}
	case pl == nil:
		pl = &plan.Plan{Of: st, Status: solver.Stopped, Bound: -catalog.Cents(catalog.MaxSum)}
	}
	way := Alternative{Choice: c, Plan: pl}
	if pl.Has {
		way.More, way.Keeps = pl.Expected-w.Advised.Expected, pl.Keeps-w.Advised.Keeps
		way.Reasons = plan.Causes(w.Slot, w.Advised, pl)
		way.Least = way.More - way.Keeps
		way.Slack = way.Least <= choice.EstimatingError(st, w.Advised.Lines[w.Slot].Choice, c)
	}
	if pl.Status == solver.Stopped { // with it no set is below what none is below without
		way.Least = max(noneBelow(pl), floor, noneBelow(w.Advised)) - w.Advised.Weighed()
	}
	return way
}

// sort puts the cheapest sets first, the advised one before its equals; then what no set
// was found with in time, then what there is none with.
func (w *Why) sort() {
	kind := func(a *Alternative) int {
		switch {
		case a.Plan.Has:
			return 0
		case !a.Proven():
			return 1
		}
		return 2
	}
	taken := func(a *Alternative) int {
		if w.Taken(a) {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(w.Alternatives, func(a, b Alternative) int {
		return cmp.Or(cmp.Compare(kind(&a), kind(&b)), cmp.Compare(a.More-a.Keeps, b.More-b.Keeps),
			cmp.Compare(taken(&a), taken(&b)), cmp.Compare(a.Least, b.Least))
	})
}

// planned are the choices of a slot that have a line, in their order.
func planned(p *program.Program, slot int) []int32 {
	var out []int32
	for _, pair := range p.Pairs[slot] {
		if len(out) == 0 || out[len(out)-1] != pair.K {
			out = append(out, pair.K)
		}
	}
	return out
}

// Instead gives the cheapest set in which the slot's choice is one of those
// wanted, beside the advised one.
func Instead(ctx context.Context, st *catalog.State, slot int, wanted func(*plan.Choice) bool,
	set solver.Settings) (advised, plan *plan.Plan, err error) {
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true, Keep: []int{slot}}, set)
	if err != nil {
		return nil, nil, err
	}
	if advised, err = e.Ask(ctx, solver.Change{}); err != nil || !advised.Has {
		return advised, advised, err
	}
	plan, err = e.Ask(ctx, solver.Change{Ban: e.Only(slot, wanted)})
	return advised, plan, err
}
