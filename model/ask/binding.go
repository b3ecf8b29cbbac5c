package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// Binding is one lock or one ban of the user's, and what it costs today: what the
// plan costs more than it would without this one, all others staying.
//
//	costs = expected(the plan) - expected(the best without it)
//
// It is never below 0, but where the best without it keeps more of the object's own.
// Where the best finish was asked for, it is what the finish would gain instead.
type Binding struct {
	Lock, Ban int           // index into the state's locks or bans, the other catalog.None; both None for all together
	Looked    bool          // false: time was up, or the plan itself is not proven
	Proven    bool          // false: it may cost more than Costs says
	Costs     catalog.Cents // with the best finish what that costs less, which may be below 0
	Gain      float64       // points of mean grade the best finish would gain; 0 unless that was asked for
	Plan      *plan.Plan    // the plan without it; nil where nothing is gained
}

// BindingsOf are all locks and bans, none looked at.
func BindingsOf(st *catalog.State) []Binding {
	var all []Binding
	for i := range st.Locks {
		all = append(all, Binding{Lock: i, Ban: catalog.None})
	}
	for i := range st.Bans {
		all = append(all, Binding{Lock: catalog.None, Ban: i})
	}
	return all
}

// Bindings looks at every lock and then every ban, and where there are several at
// what they cost together: two may cost something only jointly. The plan is what
// Solve or Best gave for the state.
func Bindings(ctx context.Context, plan *plan.Plan, set solver.Settings) ([]Binding, error) {
	st := plan.Of
	if !plan.Has {
		return nil, nil
	}
	all := BindingsOf(st)
	if len(all) > 1 {
		all = append(all, Binding{Lock: catalog.None, Ban: catalog.None})
	}
	c := newClock(ctx, set)
	for i := range all {
		if err := all[i].look(c, st, plan); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// look solves the state without the lock or ban.
func (b *Binding) look(c *clock, st *catalog.State, pl *plan.Plan) error {
	set, ok := c.next()
	if !ok || pl.Status != solver.Optimal {
		return nil
	}
	free := b.lift(st)
	var now *plan.Plan
	var err error
	if pl.Best {
		set.TimeLimit /= 2 // for each of its two searches
		now, err = program.Best(c.ctx, free, set)
	} else {
		below := int64(pl.Weighed())
		freed := program.CompileWithin(c.ctx, free, program.Options{FixedLimits: true})
		now, err = freed.Solve(c.ctx, solver.Change{Below: &below}, set)
	}
	if err != nil {
		return err
	}
	b.Proven = now.Status != solver.Stopped
	b.Looked = b.Proven || now.Has
	if !now.Has || !pl.Best && now.Weighed() >= pl.Weighed() {
		return nil
	}
	if pl.Best {
		b.Gain = max(0, now.Grade-pl.Grade)
	}
	b.Costs = pl.Expected - now.Expected
	if b.Costs != 0 || b.Gain != 0 || now.Keeps != pl.Keeps {
		b.Plan = now
	}
	return nil
}

// lift is the state without the lock or ban; without all of them where it stands
// for all.
func (b *Binding) lift(st *catalog.State) *catalog.State {
	free := st.Clone()
	switch {
	case b.Lock != catalog.None:
		free.Locks = slices.Delete(free.Locks, b.Lock, b.Lock+1)
	case b.Ban != catalog.None:
		free.Bans = slices.Delete(free.Bans, b.Ban, b.Ban+1)
	default:
		free.Locks, free.Bans = nil, nil
	}
	return free
}
