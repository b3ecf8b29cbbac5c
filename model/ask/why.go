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
	// Unsettled are figures of which it is only known that the decision stands up to Last,
	// since others are nearly as good over a long way.
	Unsettled []Breakpoint
	Stopped   bool // not every question was answered in time
}

// Alternative is one choice for the slot and the cheapest whole set with it.
type Alternative struct {
	Choice  *plan.Choice
	Plan    *plan.Plan    // Has is false where no set with it meets the demands
	More    catalog.Cents // what the set comes to above the advised one
	Keeps   catalog.Cents // what more of the object's own it keeps is worth to the owner; below zero: less
	Reasons []plan.Cause  // what makes the difference, the biggest first; they add up to More
	Slack   bool          // the difference is within the error of the estimates
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
	if err := w.askAll(ctx, e); err != nil {
		return nil, err
	}
	if w.Stopped {
		return w, nil
	}
	var whole bool
	if w.Rules, whole, err = rulePrices(ctx, e, slot, w.Advised); err == nil && whole {
		err = w.findBreakpoints(ctx, e)
	}
	w.Stopped = w.Stopped || !whole
	return w, err
}

// askAll forces every choice, each by itself from what is known of the advised set.
func (w *Why) askAll(ctx context.Context, e *program.Explorer) error {
	all := planned(e.Program, w.Slot)
	plans := make([]*plan.Plan, len(all))
	share := newShares(ctx, len(all))
	err := parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		c := &e.Choices[w.Slot][all[i]]
		if plans[i] = w.Advised; plan.SameChoice(c, w.Advised.Lines[w.Slot].Choice) {
			return nil
		}
		plans[i], err = e.Fork().Ask(within, solver.Change{Ban: e.Only(w.Slot, func(o *plan.Choice) bool { return o == c })})
		return err
	})
	if err != nil {
		return err
	}
	for i, k := range all {
		c, pl := &e.Choices[w.Slot][k], plans[i]
		if pl == nil {
			w.Stopped = true
			continue
		}
		w.Stopped = w.Stopped || pl.Status == solver.Stopped
		way := Alternative{Choice: c, Plan: pl}
		if pl.Has {
			way.More, way.Keeps = pl.Expected-w.Advised.Expected, pl.Keeps-w.Advised.Keeps
			way.Reasons = plan.Causes(w.Slot, w.Advised, pl)
			way.Slack = way.More-way.Keeps <= choice.EstimatingError(e.State, w.Advised.Lines[w.Slot].Choice, c)
		}
		w.Alternatives = append(w.Alternatives, way)
	}
	slices.SortStableFunc(w.Alternatives, func(a, b Alternative) int {
		if a.Plan.Has != b.Plan.Has {
			if a.Plan.Has {
				return -1
			}
			return 1
		}
		if c := cmp.Compare(a.More-a.Keeps, b.More-b.Keeps); c != 0 || w.Taken(&a) == w.Taken(&b) {
			return c
		}
		if w.Taken(&a) {
			return -1
		}
		return 1
	})
	return nil
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
