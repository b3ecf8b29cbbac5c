package ask

import (
	"cmp"
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
	Most        catalog.Cents // Costs where that is proven; else it costs Costs at least and this at most
	Keeps       catalog.Cents // what less of the object's own is kept for it is worth to the owner
	Instead     *plan.Choice  // what would fill the slot then; nil if that stays
}

// weighed is what the demand costs, what is not kept for it included, at most: what costs more for
// all that is known comes first.
func (p *RulePrice) weighed() catalog.Cents { return p.Most + p.Keeps }

// rulePrices looks at the demands on the set, on the slot, and on the groups and shared
// pieces it has to do with, from what is known of the state's program; the plan is proven to be its
// cheapest. What binds comes first, the dearest of it; what costs nothing is left out. whole is false
// where time ran out: then some cost between two sums, and those of which nothing is known are left out.
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
		if other == nil {
			whole = false
			continue
		}
		p := rulePrice(pl, other, slot)
		p.Requirement, whole = r, whole && p.Most == p.Costs
		if told := p.Costs+p.Keeps > 0 || p.weighed() < pl.Weighed(); told && p.weighed() > 0 { // else nothing is known
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b RulePrice) int { return cmp.Compare(b.weighed(), a.weighed()) })
	return all, whole, err
}

// rulePrice compares with the cheapest set without the demand that was found; nothing keeps the
// plan itself from being that.
func rulePrice(pl, other *plan.Plan, slot int) (p RulePrice) {
	if other.Has && other.Weighed() <= pl.Weighed() {
		p.Costs, p.Keeps = pl.Expected-other.Expected, other.Keeps-pl.Keeps
		if c := other.Lines[slot].Choice; !plan.SameChoice(c, pl.Lines[slot].Choice) {
			p.Instead = c
		}
	}
	if p.Most = p.Costs; other.Status == solver.Stopped {
		p.Most = max(p.Costs, pl.Weighed()-noneBelow(other)-p.Keeps)
	}
	return p
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
