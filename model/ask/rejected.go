package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// RejectedPiece is a piece that a plan does not hang though it fits, and why.
type RejectedPiece struct {
	Slot, Piece int
	Choice      *plan.Choice  // the best that could be done with it; nil where nothing is
	More        catalog.Cents // what the whole set comes to more with it
	Keeps       catalog.Cents // what more of the object's own it keeps is worth to the owner; below zero: less
	OwnerMore   catalog.Cents // what the owner pays more for the set with it, if all goes well; below zero: less
	Why         string        // where it can't be used at all
	Fault       string        // Why for somebody who has no files to write in; "": Why says nothing of them
	Both        bool          // no set with it meets the demands, though it could hang by itself
	// Open: time was up before it was proven. No set with it is below Least more, cost and keeping weighed;
	// Choice is that of the best set found, nil where none was.
	Open  bool
	Least catalog.Cents
}

// RejectedPieces says for every piece that fits a slot and is neither hung nor held for it why
// that is: what it would cost more, or what rules it out. Pieces the customer already
// owns only, if own; a solve each. whole is false where time ran out: then some are open, and those of
// which nothing is known are left out.
func RejectedPieces(ctx context.Context, plan *plan.Plan, own bool,
	set solver.Settings) (all []RejectedPiece, whole bool, err error) {
	st := plan.Of
	slots := make([]int, len(st.Slots))
	for s := range slots {
		slots[s] = s
	}
	return rejectedPieces(ctx, plan, slots, own, set)
}

// RejectedFor says the same of the pieces that fit one slot, whoever owns them.
func RejectedFor(ctx context.Context, plan *plan.Plan, slot int,
	set solver.Settings) (all []RejectedPiece, whole bool, err error) {
	return rejectedPieces(ctx, plan, []int{slot}, false, set)
}

func rejectedPieces(ctx context.Context, plan *plan.Plan, slots []int, own bool,
	set solver.Settings) (all []RejectedPiece, whole bool, err error) {
	st := plan.Of
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true, Keep: slots}, set)
	if err != nil {
		return nil, false, err
	}
	clock := newClock(ctx, set)
	ctx, done := clock.within()
	defer done()
	if e.GaveUp {
		return nil, false, nil
	}
	above := int64(plan.Weighed()) + 1
	if err := learn(ctx, e, solver.Change{Below: &above}); err != nil {
		return nil, false, err
	}
	for _, s := range slots {
		for _, piece := range unused(e, plan, s, own) {
			all = append(all, RejectedPiece{Slot: s, Piece: piece})
		}
	}
	known := make([]bool, len(all))
	share := newShares(ctx, len(all))
	err = parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		known[i], err = all[i].against(within, e.Fork(), plan)
		return err
	})
	whole = err == nil
	var told []RejectedPiece
	for i := range all {
		if whole = whole && known[i] && !all[i].Open; known[i] {
			told = append(told, all[i])
		}
	}
	return told, whole, err
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

// against asks what the set comes to with the piece; false where nothing is known of that in time.
func (a *RejectedPiece) against(ctx context.Context, e *program.Explorer, pl *plan.Plan) (known bool, err error) {
	ban := e.Only(a.Slot, func(c *plan.Choice) bool { return c.Piece == a.Piece })
	if len(ban) == len(e.Pairs[a.Slot]) {
		a.Why, a.Fault = ruledOut(e, a.Slot, a.Piece)
		return true, nil
	}
	other, err := e.Ask(ctx, solver.Change{Ban: ban})
	return err == nil && a.compare(other, pl), err
}

// compare sets the cheapest set with the piece that was found against the plan; false where that says
// nothing.
func (a *RejectedPiece) compare(other, pl *plan.Plan) (known bool) {
	switch {
	case other.Has:
		a.Choice = other.Lines[a.Slot].Choice
		a.More, a.Keeps = other.Expected-pl.Expected, other.Keeps-pl.Keeps
		a.OwnerMore = other.ForOwner().Total - pl.ForOwner().Total
	case other.Status != solver.Stopped:
		a.Both = true
	}
	a.Least = a.More - a.Keeps
	if other.Status == solver.Stopped { // with it no set is below what none is below without
		least := max(noneBelow(other), noneBelow(pl)) - pl.Weighed()
		a.Open, a.Least = a.Choice == nil || least < a.Least, least
	}
	return a.Choice != nil || !a.Open || a.Least > 0
}

// noLine is why a piece is out though something that can be done with it is admitted by itself.
const noLine = "nothing that can be done with it keeps the date and the chance asked for"

// ruledOut is a reason why nothing that can be done with a piece is admitted.
func ruledOut(e *program.Explorer, s, piece int) (best, fault string) {
	for i := range e.Choices[s] {
		c := &e.Choices[s][i]
		if c.Piece != piece {
			continue
		}
		out := program.Admit(e.State, c, program.Planned)
		if len(out) == 0 {
			return noLine, ""
		}
		best = out[0].Why
	}
	if best != "" {
		return best, ""
	}
	for _, o := range choice.ExclusionsFor(e.State, s) {
		if o.Piece == piece && o.Why != "" {
			return o.Why, o.Fault
		}
	}
	return noLine, ""
}
