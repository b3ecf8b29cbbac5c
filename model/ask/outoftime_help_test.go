package ask

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// gainOf is what the best set costs less than the plan if a figure turns out one way,
// with everything worked out from nothing.
func gainOf(ctx context.Context, st *catalog.State, pl *plan.Plan, w *turnout,
	set solver.Settings) (gain catalog.Cents, proven bool, err error) {
	opt := program.Options{FixedLimits: true, Adjust: w.choice}
	find := func(c *plan.Choice) *plan.Choice {
		k := *c
		w.choice(&k)
		choice.AddUp(&k)
		return &k
	}
	if w.choice == nil {
		st = st.Clone()
		w.state(st)
		find = func(c *plan.Choice) *plan.Choice { return choice.FindSame(choice.ChoicesFor(st, c.Slot), c) }
	}
	cost, keeps := carriedOut(st, pl, find)
	regardless := cost - keeps
	if w.gone != nil {
		st = st.Clone()
		w.gone(st)
	}
	gain, most, err := savedBy(ctx, &program.Explorer{Set: set}, program.Compile(st, opt), regardless)
	return gain, gain == most, err
}

const minute = time.Minute
