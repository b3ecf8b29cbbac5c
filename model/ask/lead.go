package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// Lead is a piece that may or may not come, and what its chance is worth.
type Lead struct {
	Piece    int
	Slot     int           // where the plan has it
	Reserve  bool          // held in reserve there, not planned
	Worth    catalog.Cents // what the set would cost more if it were certain not to come
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
func Leads(ctx context.Context, st *catalog.State, pl *plan.Plan, set solver.Settings) (all []Lead, whole bool, err error) {
	whole = true
	for i := range pl.Lines {
		l := &pl.Lines[i]
		for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
			if c == nil || c.Chance == catalog.One {
				continue
			}
			lead := Lead{Piece: c.Piece, Slot: l.Slot, Reserve: c == l.Fallback}
			if st.Job.WithinDays.Set {
				lead.HasLast = true
				lead.LastDay = st.Job.WithinDays.V + choice.Arrival(st, &st.Pieces[c.Piece]) - max(0, choice.DaysAtLatest(st, l)-st.Job.Elapsed)
			}
			if ctx.Err() != nil {
				return all, false, nil
			}
			without := st.Clone()
			without.Bans = append(without.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: c.Piece, Plater: catalog.None}})
			other, err := program.Solve(ctx, without, set)
			if err != nil {
				return nil, false, err
			}
			if !other.Has && other.Status == solver.Stopped {
				whole = false
				continue
			}
			lead.Needed = other.Status == solver.Infeasible
			lead.Unproven = other.Status == solver.Stopped
			if other.Has {
				lead.Worth = other.Expected - pl.Expected
			}
			all = append(all, lead)
		}
	}
	return all, whole, nil
}
