package model

import (
	"context"

	"brightset/catalog"
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
func Leads(ctx context.Context, st *catalog.State, plan *Plan, set solver.Settings) (all []Lead, whole bool, err error) {
	whole = true
	for i := range plan.Lines {
		l := &plan.Lines[i]
		for _, c := range []*Choice{l.Choice, l.Fallback} {
			if c == nil || c.Chance == catalog.One {
				continue
			}
			lead := Lead{Piece: c.Piece, Slot: l.Slot, Reserve: c == l.Fallback}
			if st.Job.WithinDays.Set {
				lead.HasLast = true
				lead.LastDay = st.Job.WithinDays.V + arrival(st, &st.Pieces[c.Piece]) - max(0, DaysAtLatest(st, l)-st.Job.Elapsed)
			}
			if ctx.Err() != nil {
				return all, false, nil
			}
			without := st.Clone()
			without.Bans = append(without.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: c.Piece, Plater: catalog.None}})
			other, err := Solve(ctx, without, set)
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
				lead.Worth = other.Expected - plan.Expected
			}
			all = append(all, lead)
		}
	}
	return all, whole, nil
}

// DaysAtLatest is when a line is settled at the latest: with its fallback, or a
// rescue, if its choice can fail; with either, if it shares the fallback and yields.
func DaysAtLatest(st *catalog.State, l *Line) int {
	rescued := onDay(st, l.Choice.Days+st.Slots[l.Slot].RescueDays.V)
	switch {
	case l.Choice.Fails == 0:
		return OnDay(st, l.Choice)
	case l.Fallback == nil:
		return rescued
	}
	second := onDay(st, l.Choice.Days+l.Fallback.Days)
	if l.Sharing != nil && l.Sharing.Yields {
		return max(second, rescued)
	}
	return second
}

// LastDay is the day on which all lines of a plan are settled at the latest.
func LastDay(st *catalog.State, plan *Plan) int {
	last := 0
	for i := range plan.Lines {
		last = max(last, DaysAtLatest(st, &plan.Lines[i]))
	}
	return last
}
