package ask

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// Profile is a kind of piece to look out for.
type Profile struct {
	Name  string
	Kind  catalog.Kind
	Grade catalog.Val[catalog.Centi] // as it lies; not set: sound, to be plated
	Fresh bool                       // freshly finished by its maker
}

// Find is what a piece of some profile would be worth in a slot. Nobody has it
// yet.
type Find struct {
	Slot    int
	Profile Profile
	Metal   int           // that it is taken to be made of: the usual one of the slot
	Worth   catalog.Cents // the most to pay for it, freight included, for all the slot needs
	// Most is, where time was up before, what it is worth at most: Worth is at least that, then.
	// catalog.MaxSum: no end is known.
	Most    catalog.Cents
	Rescues bool         // without it nothing meets the target: Worth is what keeps the budget, if there is one
	Choice  *plan.Choice // what is done to it
	With    *plan.Plan   // the set with it, free of charge
	Stopped bool         // time was up before Worth and Most met

	place int // among all that the hunt may look at: names need not tell finds for a slot apart
}

// Hunted is the answer to a hunt: the set as it is, and the finds that are worth
// something, the most valuable first.
type Hunted struct {
	Plan  *plan.Plan
	Finds []Find
	Pairs []PairFind
	Leads []Lead // those the plan makes use of
	Whole bool   // every slot, profile and pair was looked at
}

// PairFind is what two finds are worth together.
type PairFind struct {
	A, B     int           // places in Finds
	Together catalog.Cents // the most to pay for both, as a find's Worth is for one
	Most     catalog.Cents // Together, where that is proven; else they are worth this at most and Together at least
}

// ProfilesFor are the profiles looked for in a slot: unused and as good as the slot
// and the set ask for, a reproduction as good, a sound original for plating, and what
// the user named.
func ProfilesFor(st *catalog.State, slot int) []Profile {
	want := max(st.Slots[slot].Target.Floor.Or(0), st.Job.Target.Mean.Or(0))
	grade := catalog.Val[catalog.Centi]{V: want, Set: true}
	all := []Profile{
		{Name: fmt.Sprintf("unused, grade %s or better", plan.Centi(want)), Kind: catalog.OldStock, Grade: grade},
		{
			Name:  fmt.Sprintf("a reproduction, grade %s or better", plan.Centi(want)),
			Kind:  catalog.Reproduction,
			Grade: grade,
			Fresh: true,
		},
		{Name: "a sound original for plating", Kind: catalog.Original},
	}
	for _, w := range st.Wanted {
		if len(w.Slots) == 0 || slices.Contains(w.Slots, slot) {
			all = append(all, Profile{Name: w.ID, Kind: w.Kind, Grade: w.Grade, Fresh: w.Fresh})
		}
	}
	return all
}

// Hunt works out the most that a find of each profile is worth in each slot: the
// least total without it less the least total with it forced and free, what is kept of the
// object's own weighed in both: a find that takes the place of an own piece is worth so much
// less. Both solves
// are of the whole set, so the sum is exact; where a budget on the outlay binds it
// is brought down to what keeps the budget. Slots may be nil for all.
func Hunt(ctx context.Context, st *catalog.State, slots []int, set solver.Settings) (*Hunted, error) {
	h, err := newHunt(ctx, st, slots, set)
	if err != nil {
		return nil, err
	}
	out := &Hunted{}
	if out.Plan, err = h.base(ctx, st, set); err != nil {
		return nil, err
	}
	if !out.Plan.Has && out.Plan.Status != solver.Infeasible {
		return out, nil
	}
	out.Whole = true
	if err := h.values(ctx, out); err != nil {
		return nil, err
	}
	if ctx.Err() != nil {
		out.Whole = false
		return out.sorted(), nil
	}
	if err = h.pairs(ctx, out.sorted()); err == nil && out.Plan.Has {
		var whole bool
		out.Leads, whole, err = Leads(ctx, out.Plan, set)
		out.Whole = out.Whole && whole
	}
	return out, err
}

// base is the cheapest set as it is. The program that holds the finds is larger: where
// it is not proven there, the program without them is asked, as plan does.
func (h *hunt) base(ctx context.Context, st *catalog.State, set solver.Settings) (*plan.Plan, error) {
	own, done := program.Portion(ctx, 0.5)
	defer done()
	plan, err := h.e.Ask(own, solver.Change{Ban: h.ban()})
	if err != nil {
		return nil, err
	}
	plan.Of = st // no find is in it
	if plan.Status != solver.Stopped {
		return plan, nil
	}
	other, err := program.Solve(ctx, st, set)
	if err != nil || other.Status == solver.Stopped && !other.Has {
		return plan, err
	}
	return other, nil
}

// sorted puts the most valuable find first, of equals the earlier slot's.
func (h *Hunted) sorted() *Hunted {
	slices.SortStableFunc(h.Finds, func(a, b Find) int {
		return cmp.Or(cmp.Compare(b.Worth, a.Worth), cmp.Compare(b.Most, a.Most), cmp.Compare(a.Slot, b.Slot))
	})
	return h
}
