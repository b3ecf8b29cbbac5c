package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// Lead is a piece that may or may not come, and what its chance is worth.
type Lead struct {
	Piece    int
	Slot     int           // where the plan has it
	Reserve  bool          // held in reserve there, not planned
	Worth    catalog.Cents // what the set would cost more, or keep less, if it were certain not to come
	Needed   bool          // without it nothing meets the target
	LastDay  int           // day of the job by which it has to be on the bench
	HasLast  bool          // there is such a day
	Unproven bool
}

// Leads asks for every lead the plan makes use of what the set costs without it.
// Waiting for it is worth that, and not longer than the date allows: the day by
// which it has to be there so that its line, with fallback or rescue, keeps the date.
// A lead that the plan makes no use of is not worth waiting for. whole is false where
// time ran out before anything was known of one.
func Leads(ctx context.Context, st *catalog.State, pl *plan.Plan,
	set solver.Settings) (all []Lead, whole bool, err error) {
	for i := range pl.Lines {
		l := &pl.Lines[i]
		for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
			if c == nil || c.Chance == catalog.One {
				continue
			}
			lead := Lead{Piece: c.Piece, Slot: l.Slot, Reserve: c == l.Fallback}
			if st.Job.WithinDays.Set {
				lead.HasLast = true
				toGo := max(0, choice.DaysAtLatest(st, l)-st.Job.Elapsed)
				lead.LastDay = st.Job.WithinDays.V + choice.Arrival(st, &st.Pieces[c.Piece]) - toGo
			}
			all = append(all, lead)
		}
	}
	if len(all) == 0 {
		return nil, true, nil
	}
	base, err := knowing(ctx, st, pl, set)
	if err != nil || base.GaveUp {
		return nil, false, err
	}
	known := make([]bool, len(all))
	share := newShares(ctx, len(all))
	err = parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		known[i], err = all[i].without(within, base, pl)
		return err
	})
	whole = err == nil && !slices.Contains(known, false)
	var told []Lead
	for i := range all {
		if known[i] {
			told = append(told, all[i])
		}
	}
	return told, whole, err
}

// without asks what the set costs without the piece; false where nothing is known of that.
func (l *Lead) without(ctx context.Context, base *program.Explorer, pl *plan.Plan) (known bool, err error) {
	gone := base.State.Clone()
	gone.Bans = append(gone.Bans,
		catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: l.Piece, Plater: catalog.None}})
	after, err := base.After(base.Again(gone, program.Options{GiveUp: program.Over(ctx)}, l.Piece))
	if err != nil {
		return false, err
	}
	after.Set.TotalAlone = true
	other, err := after.Ask(ctx, solver.Change{})
	if err != nil || !other.Has && other.Status == solver.Stopped {
		return false, err
	}
	l.Needed, l.Unproven = other.Status == solver.Infeasible, other.Status == solver.Stopped
	if other.Has {
		l.Worth = other.Weighed() - pl.Weighed()
	}
	return true, nil
}
