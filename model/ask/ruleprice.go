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

// RulePrice is a demand that has a say in how a slot is filled, and what it costs:
// what the set would cost less without it, all others kept.
type RulePrice struct {
	Requirement Requirement
	Costs       catalog.Cents
	Keeps       catalog.Cents // what less of the object's own is kept for it is worth to the owner
	Instead     *plan.Choice  // what would fill the slot then; nil if that stays
}

// weighed is what the demand costs, what is not kept for it included.
func (p *RulePrice) weighed() catalog.Cents { return p.Costs + p.Keeps }

// RulePrices looks at the demands on the set, on the slot, and on the groups and
// shared pieces it has to do with. What binds comes first, the dearest of it; what
// costs nothing is left out. whole is false if time ran out.
func RulePrices(ctx context.Context, pl *plan.Plan, slot int,
	set solver.Settings) (all []RulePrice, whole bool, err error) {
	st := pl.Of
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true}, set)
	if err != nil {
		return nil, false, err
	}
	return rulePrices(ctx, e, slot, pl)
}

// rulePrices starts from what is known of the state's program.
func rulePrices(ctx context.Context, e *program.Explorer, slot int, pl *plan.Plan) (all []RulePrice, whole bool,
	err error) {
	st := e.State
	asked := slices.DeleteFunc(Requirements(st), func(r Requirement) bool { return !r.concerns(st, slot) })
	others := make([]*plan.Plan, len(asked))
	share := newShares(ctx, len(asked))
	err = parallel.Do(ctx, len(asked), func(i int) error {
		within, done := share.Next(ctx)
		defer done()
		without := st.Clone()
		asked[i].drop(without)
		after, err := e.After(program.CompileWithin(within, without, program.Options{FixedLimits: true}))
		if err == nil {
			others[i], err = after.Ask(within, solver.Change{})
		}
		return err
	})
	whole = err == nil
	for i, r := range asked {
		other := others[i]
		if other == nil || other.Status != solver.Optimal {
			whole = false
			continue
		}
		p := RulePrice{Requirement: r, Costs: pl.Expected - other.Expected, Keeps: other.Keeps - pl.Keeps}
		if c := other.Lines[slot].Choice; !plan.SameChoice(c, pl.Lines[slot].Choice) {
			p.Instead = c
		}
		if p.weighed() > 0 {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b RulePrice) int { return int(b.weighed() - a.weighed()) })
	return all, whole, err
}

// concerns says whether a demand has to do with a slot.
func (r *Requirement) concerns(st *catalog.State, slot int) bool {
	switch r.Kind {
	case "budget", "mean", "completion", "date":
		return true
	case "lock":
		return st.Locks[r.index].Slot == slot
	case "ban":
		s := st.Bans[r.index].Slot
		return s == catalog.None || s == slot
	case "match":
		return slices.Contains(st.Matches[r.index].Slots, slot)
	case "slot", "breakage", "bears":
		return r.index == slot
	case "piece":
		return choice.FitsSlot(&st.Pieces[r.index], slot)
	}
	return false
}
