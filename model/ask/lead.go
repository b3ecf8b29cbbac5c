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
	Piece   int
	Slot    int           // where the plan has it, or what it is given in trade for
	Reserve bool          // held in reserve there, not planned
	Given   bool          // given in trade for what is planned there
	Worth   catalog.Cents // what the set would cost more, or keep less, if it were certain not to come
	Needed  bool          // without it nothing meets the target
	LastDay int           // day of the job by which it has to be on the bench
	HasLast bool          // there is such a day
	// Most is, where time was up before, what it is worth at most: Worth is at least that, then.
	// catalog.MaxSum: no end is known, or it is needed.
	Most     catalog.Cents
	Unproven bool // time was up before Worth and Most met, or it was known that it is needed
}

// Leads asks for every lead the plan makes use of what the set costs without it.
// Waiting for it is worth that, and not longer than the date allows: the day by
// which it has to be there so that its line, with fallback or rescue, keeps the date.
// A lead that the plan makes no use of is not worth waiting for. whole is false where
// time ran out before that was proven of one.
func Leads(ctx context.Context, pl *plan.Plan,
	set solver.Settings) (all []Lead, whole bool, err error) {
	all = leadsOf(pl)
	if len(all) == 0 {
		return nil, true, nil
	}
	base, err := knowing(ctx, pl, set)
	if err != nil || base.GaveUp {
		return nil, false, err
	}
	others := make([]*plan.Plan, len(all))
	share := newShares(ctx, len(all))
	err = parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		others[i], err = all[i].without(within, base)
		return err
	})
	if err != nil {
		return nil, false, err
	}
	for i := range all {
		all[i].weigh(others[i], pl)
	}
	return all, !slices.ContainsFunc(all, func(l Lead) bool { return l.Unproven }), nil
}

// leadsOf lists the leads that a plan hangs, holds or gives in trade.
func leadsOf(pl *plan.Plan) (all []Lead) {
	st := pl.Of
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
		for _, t := range tradesMade(st, pl) {
			if t.Get == l.Choice.Piece && st.Pieces[t.Give].Chance < catalog.One &&
				!slices.ContainsFunc(all, func(k Lead) bool { return k.Piece == t.Give }) {
				all = append(all, Lead{Piece: t.Give, Slot: l.Slot, Given: true})
			}
		}
	}
	return all
}

// tradesMade are those that a plan makes.
func tradesMade(st *catalog.State, pl *plan.Plan) (all []catalog.Trade) {
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargeTrade {
			all = append(all, st.Trades[c.Of])
		}
	}
	return all
}

// without asks for the cheapest set without the piece.
func (l *Lead) without(ctx context.Context, base *program.Explorer) (*plan.Plan, error) {
	gone := base.State.Clone()
	gone.Pieces[l.Piece].Stage = catalog.StageLost // nor can it be given in trade
	after, err := base.After(base.Again(gone, program.Options{GiveUp: program.Over(ctx)}, l.Piece))
	if err != nil {
		return nil, err
	}
	after.Set.TotalAlone = true
	return after.Ask(ctx, solver.Change{})
}

// weigh compares the plan with the cheapest set without the piece; nil where time was up
// before that was asked for. Without it no set is below what none is below with it.
func (l *Lead) weigh(other, pl *plan.Plan) {
	if other == nil {
		other = &plan.Plan{Status: solver.Stopped, Bound: -catalog.Cents(catalog.MaxSum)}
	}
	l.Needed, l.Most = other.Status == solver.Infeasible, catalog.Cents(catalog.MaxSum)
	if other.Has {
		l.Most = other.Weighed() - pl.Weighed()
		l.Worth = l.Most
	}
	if other.Status == solver.Stopped {
		l.Worth = max(noneBelow(other), noneBelow(pl)) - pl.Weighed()
		l.Unproven = l.Worth < l.Most
	}
}
