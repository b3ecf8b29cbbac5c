package ask

import (
	"context"
	"slices"
	"time"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// Explanation is why nothing meets a job: requirements that can't all be kept, though
// any of them left out lets the others be, and what giving up each would take.
type Explanation struct {
	Takers []Taker // works that nobody does: the rest is what clashes even if somebody did them
	// the cheapest set if somebody did, at the shop's own rate; nil where there is none, or no Takers
	WithTakers  *plan.Plan
	Conflict    []Requirement // none: not even without all of them is there a set
	Minimal     bool          // shown by a solve without each member
	Relaxations []Relaxation
	More        []Conflict // what clashes besides, whatever of Clash is given up
	Bare        *plan.Plan // with More: the cheapest set without any of all these; nil if not found
	Stopped     bool       // time ran out
}

// Conflict is a set of requirements that can't all be kept.
type Conflict struct {
	Requirements []Requirement
	Minimal      bool
}

// NobodyPlates says whether a demand on the finish clashes in a job for which no plater is known,
// or of none what he asks.
func (c *Explanation) NobodyPlates(st *catalog.State) bool {
	finish := func(r Requirement) bool { return r.Kind == "mean" || r.Kind == "slot" }
	asks := slices.ContainsFunc(st.Platers, func(p catalog.Plater) bool { return len(p.Levels) > 0 }) ||
		slices.ContainsFunc(st.Pieces, func(p catalog.Piece) bool { return len(p.Quotes) > 0 })
	return !asks && (slices.ContainsFunc(c.Conflict, finish) ||
		slices.ContainsFunc(c.More, func(m Conflict) bool { return slices.ContainsFunc(m.Requirements, finish) }))
}

// mostConflicts bounds how many are looked for beside the first.
const mostConflicts = 20

// longestExplain is how long is looked for an explanation where the context sets no
// end.
const longestExplain = 28 * time.Second

// Explain looks for a smallest clash among the requirements of a job that nothing
// meets, by QuickXplain (Junker 2004; from memory): halves of the requirements are
// taken in and out, and each time it is asked whether some set meets what is in.
func Explain(ctx context.Context, st *catalog.State, set solver.Settings) (*Explanation, error) {
	c := &Explanation{}
	if ctx.Err() == nil {
		c.Takers, st = Takers(st)
	}
	x := &explainer{clock: newClock(ctx, set), st: st, all: Requirements(st)}
	if _, limited := ctx.Deadline(); !limited {
		x.clock.end = time.Now().Add(longestExplain)
	}
	if len(c.Takers) > 0 {
		plan, err := x.solve(st, false)
		if err != nil || plan == nil || plan.Has {
			c.WithTakers, c.Stopped = plan, x.stopped
			return c, err
		}
	}
	whole := x.upTo(len(x.all))
	if ok, err := x.feasible(nil); err != nil || !ok {
		c.Stopped = x.stopped
		return c, err
	}
	fewer, err := x.byKind(whole)
	if err != nil {
		return nil, err
	}
	clash, err := x.quick(nil, false, fewer)
	if err != nil {
		return nil, err
	}
	slices.Sort(clash)
	for _, i := range clash {
		c.Conflict = append(c.Conflict, x.all[i])
	}
	if c.Minimal, err = x.minimal(clash); err != nil {
		return nil, err
	}
	if err = x.others(c, clash); err == nil && len(c.More) == 0 && !x.stopped {
		c.Relaxations, err = x.relaxations(clash)
	}
	c.Stopped = x.stopped
	return c, err
}

// others looks for clashes among what is left once the members of those found are
// dropped, until the rest can be kept.
func (x *explainer) others(c *Explanation, clash []int) error {
	left := slices.DeleteFunc(x.upTo(len(x.all)), func(i int) bool { return slices.Contains(clash, i) })
	for !x.stopped {
		plan, err := x.solve(x.only(left), false)
		if err != nil || plan == nil {
			return err
		}
		if plan.Has {
			if len(c.More) > 0 {
				c.Bare = plan
			}
			return nil
		}
		if len(c.More) == mostConflicts {
			return nil
		}
		next, err := x.quick(nil, false, left)
		if err != nil {
			return err
		}
		slices.Sort(next)
		more := Conflict{}
		for _, i := range next {
			more.Requirements = append(more.Requirements, x.all[i])
		}
		if more.Minimal, err = x.minimal(next); err != nil {
			return err
		}
		c.More = append(c.More, more)
		left = slices.DeleteFunc(left, func(i int) bool { return slices.Contains(next, i) })
	}
	return nil
}

// explainer asks which requirements can be met together.
type explainer struct {
	clock   *clock
	st      *catalog.State
	all     []Requirement
	stopped bool
}

// feasible asks whether some set meets the requirements kept, all others dropped. Out
// of time, it is taken for granted that there is one.
func (x *explainer) feasible(keep []int) (bool, error) {
	plan, err := x.solve(x.only(keep), true)
	if err != nil || plan == nil {
		return true, err
	}
	return plan.Has, nil
}

// only is the state with nothing but the requirements kept.
func (x *explainer) only(keep []int) *catalog.State {
	st := x.st.Clone()
	for i := range x.all {
		if !slices.Contains(keep, i) {
			x.all[i].drop(st)
		}
	}
	return st
}

// without is the state with one requirement dropped.
func (x *explainer) without(i int) *catalog.State {
	st := x.st.Clone()
	x.all[i].drop(st)
	return st
}

// solve gives the cheapest plan of a state, or with any the first one that is found;
// nil if time ran out before it was known whether there is one.
func (x *explainer) solve(st *catalog.State, any bool) (*plan.Plan, error) {
	set, ok := x.clock.next()
	if !ok {
		x.stopped = true
		return nil, nil
	}
	ctx, enough := context.WithCancel(x.clock.ctx)
	defer enough()
	tell := set.Progress
	set.Progress = func(p solver.Progress) {
		if tell != nil {
			tell(p)
		}
		if any && p.Has {
			enough()
		}
	}
	plan, err := program.Solve(ctx, st, set)
	if err == nil && !plan.Has && plan.Status != solver.Infeasible {
		x.stopped = true
		return nil, nil
	}
	return plan, err
}
