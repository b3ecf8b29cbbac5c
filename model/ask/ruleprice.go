package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// RulePrice is a demand that has a say in how a slot is filled, and what it costs:
// what the set would cost less without it, all others kept.
type RulePrice struct {
	Requirement Requirement
	Costs       catalog.Cents
	Instead     *plan.Choice // what would fill the slot then; nil if that stays
}

// RulePrices looks at the demands on the set, on the slot, and on the groups and
// shared pieces it has to do with. What binds comes first, the dearest of it; what
// costs nothing is left out. whole is false if time ran out.
func RulePrices(ctx context.Context, st *catalog.State, slot int, pl *plan.Plan, set solver.Settings) (all []RulePrice, whole bool, err error) {
	for _, r := range Requirements(st) {
		if !r.concerns(st, slot) {
			continue
		}
		if ctx.Err() != nil {
			return all, false, nil
		}
		without := st.Clone()
		r.drop(without)
		other, err := program.Solve(ctx, without, set)
		if err != nil || other.Status != solver.Optimal {
			return all, false, err
		}
		p := RulePrice{Requirement: r, Costs: pl.Expected - other.Expected}
		if c := other.Lines[slot].Choice; !plan.SameChoice(c, pl.Lines[slot].Choice) {
			p.Instead = c
		}
		if p.Costs > 0 {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b RulePrice) int { return int(b.Costs - a.Costs) })
	return all, true, nil
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
