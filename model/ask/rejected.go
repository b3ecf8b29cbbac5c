package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// RejectedPiece is a piece that a plan does not hang though it fits, and why.
type RejectedPiece struct {
	Slot, Piece int
	Choice      *plan.Choice  // the best that could be done with it; nil where nothing is
	More        catalog.Cents // what the whole set comes to more with it
	Why         string        // where it can't be used at all
	Both        bool          // no set with it meets the demands, though it could hang by itself
}

// RejectedPieces says for every piece that fits a slot and is neither hung nor held for it why
// that is: what it would cost more, or what rules it out. Pieces the customer already
// owns only, if own; a solve each. whole is false where time ran out.
func RejectedPieces(ctx context.Context, st *catalog.State, plan *plan.Plan, own bool,
	set solver.Settings) (all []RejectedPiece, whole bool, err error) {
	keep := make([]int, len(st.Slots))
	for s := range keep {
		keep[s] = s
	}
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true, Keep: keep}, set)
	if err != nil {
		return nil, false, err
	}
	clock := newClock(ctx, set)
	if e.GaveUp {
		return nil, false, nil
	}
	for s := range st.Slots {
		for _, piece := range unused(e, plan, s, own) {
			if ctx.Err() != nil {
				return all, false, nil
			}
			a, ok, err := against(e, plan, s, piece, clock)
			if err != nil || !ok {
				return all, false, err
			}
			all = append(all, a)
		}
	}
	return all, true, nil
}

// unused are the pieces that fit a slot and have no part in its line.
func unused(e *program.Explorer, plan *plan.Plan, s int, own bool) []int {
	var out []int
	l := &plan.Lines[s]
	for i := range e.State.Pieces {
		p := &e.State.Pieces[i]
		if !choice.FitsSlot(p, s) || p.Gone() || p.Stage == catalog.StageHung || (own && p.Side != catalog.Customers) {
			continue
		}
		if l.Choice.Piece != i && (l.Fallback == nil || l.Fallback.Piece != i) {
			out = append(out, i)
		}
	}
	return out
}

func against(e *program.Explorer, pl *plan.Plan, s, piece int, clock *clock) (a RejectedPiece, ok bool, err error) {
	a = RejectedPiece{Slot: s, Piece: piece}
	ban := e.Only(s, func(c *plan.Choice) bool { return c.Piece == piece })
	if len(ban) == len(e.Pairs[s]) {
		a.Why = ruledOut(e, s, piece)
		return a, true, nil
	}
	set, ok := clock.next()
	if !ok {
		return a, false, nil
	}
	e.Set = set
	other, err := e.Ask(clock.ctx, solver.Change{Ban: ban})
	switch {
	case err != nil || other.Status == solver.Stopped:
		return a, false, err
	case !other.Has:
		a.Both = true
	default:
		a.Choice, a.More = other.Lines[s].Choice, other.Expected-pl.Expected
	}
	return a, true, nil
}

// ruledOut is the first reason why nothing that can be done with a piece is admitted.
func ruledOut(e *program.Explorer, s, piece int) string {
	best := ""
	for i := range e.Choices[s] {
		c := &e.Choices[s][i]
		if c.Piece != piece {
			continue
		}
		if out := program.Admit(e.State, c, program.Planned); len(out) > 0 {
			best = out[0].Why
		}
	}
	if best != "" {
		return best
	}
	for _, o := range choice.ExclusionsFor(e.State, s) {
		if o.Piece == piece && o.Why != "" {
			return o.Why
		}
	}
	return "nothing that can be done with it keeps the date and the chance asked for"
}
