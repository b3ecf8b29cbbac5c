package ask

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
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
	Rescues bool          // without it nothing meets the target: Worth is what keeps the budget, if there is one
	Choice  *plan.Choice  // what is done to it
	With    *plan.Plan    // the set with it, free of charge
	Stopped bool          // not proven: Worth is a guess
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
	A, B     int // places in Finds
	Together catalog.Cents
}

// ProfilesFor are the profiles looked for in a slot: unused and as good as the slot
// and the set ask for, a reproduction as good, a sound original for plating, and what
// the user named.
func ProfilesFor(st *catalog.State, slot int) []Profile {
	want := max(st.Slots[slot].Target.Floor.Or(0), st.Job.Target.Mean.Or(0))
	grade := catalog.Val[catalog.Centi]{V: want, Set: true}
	all := []Profile{
		{Name: fmt.Sprintf("unused, grade %s or better", plan.Centi(want)), Kind: catalog.OldStock, Grade: grade},
		{Name: fmt.Sprintf("a reproduction, grade %s or better", plan.Centi(want)), Kind: catalog.Reproduction, Grade: grade, Fresh: true},
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
// least total without it less the least total with it forced and free. Both solves
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
	for _, i := range h.order(out.Plan) {
		if ctx.Err() != nil {
			out.Whole = false
			return out.sorted(), nil
		}
		f, known, err := h.value(ctx, out.Plan, i)
		if err != nil {
			return nil, err
		}
		if f != nil {
			out.Finds = append(out.Finds, *f)
		}
		out.Whole = out.Whole && known
	}
	if err = h.pairs(ctx, out.sorted()); err == nil && out.Plan.Has {
		var whole bool
		out.Leads, whole, err = Leads(ctx, st, out.Plan, set)
		out.Whole = out.Whole && whole
	}
	return out, err
}

// base is the cheapest set as it is. The program that holds the finds is larger: where
// it is not proven there, the program without them is asked, as plan does.
func (h *hunt) base(ctx context.Context, st *catalog.State, set solver.Settings) (*plan.Plan, error) {
	own, done := program.Portion(ctx, 0.5)
	defer done()
	plan, err := h.ask(own)
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
		return cmp.Or(cmp.Compare(b.Worth, a.Worth), cmp.Compare(a.Slot, b.Slot))
	})
	return h
}

// hunt is one program that holds a piece for every find, each banned unless it is
// asked about.
type hunt struct {
	e     *program.Explorer
	st    *catalog.State // with the finds
	first int            // the finds' pieces come last
	finds []Find
}

func newHunt(ctx context.Context, st *catalog.State, slots []int, set solver.Settings) (*hunt, error) {
	h := &hunt{st: st.Clone(), first: len(st.Pieces)}
	var pieces []int
	for s := range st.Slots {
		if slots != nil && !slices.Contains(slots, s) {
			continue
		}
		for _, p := range ProfilesFor(st, s) {
			pieces = append(pieces, len(h.st.Pieces))
			h.st.Pieces = append(h.st.Pieces, imagined(st, s, p, len(h.finds)))
			h.finds = append(h.finds, Find{Slot: s, Profile: p, Metal: usualMetal(st, s)})
		}
	}
	var err error
	h.e, err = program.NewExplorer(ctx, h.st, program.Options{FixedLimits: true, Finds: pieces}, set)
	return h, err
}

// order has the finds for the slots that cost most now come first: most can be saved
// there, should time run out.
func (h *hunt) order(base *plan.Plan) []int {
	order := make([]int, len(h.finds))
	for i := range order {
		order[i] = i
	}
	if base.Has {
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Compare(base.Lines[h.finds[b].Slot].Expected, base.Lines[h.finds[a].Slot].Expected)
		})
	}
	return order
}

// imagined is the piece of a find: free, at hand, of the metal that most pieces
// for the slot have.
func imagined(st *catalog.State, slot int, p Profile, n int) catalog.Piece {
	piece := catalog.Piece{
		ID: fmt.Sprintf("find-%d", n+1), Name: p.Name, Fits: []int{slot}, Kind: p.Kind, Side: catalog.Customers,
		Vendor: catalog.None, Bundle: catalog.None, Metal: usualMetal(st, slot), Quantity: choice.Needed(&st.Slots[slot]),
		Chance: catalog.One, Grade: p.Grade,
	}
	if p.Fresh {
		piece.Fresh = catalog.Val[bool]{V: true, Set: true}
	}
	return piece
}

// usualMetal is the metal of most pieces that fit a slot, of equals the first.
func usualMetal(st *catalog.State, slot int) int {
	count := make([]int, len(st.Tables.Metals))
	best := 0
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if m := p.Metal; m >= 0 && m < len(count) && choice.FitsSlot(p, slot) {
			if count[m]++; count[m] > count[best] {
				best = m
			}
		}
	}
	return best
}

// ban shuts out every line with a find that is not among those allowed, and in the
// slots of those allowed every line without them.
func (h *hunt) ban(allowed ...int) []solver.Pick {
	want := map[int]int{} // slot to piece
	for _, i := range allowed {
		want[h.finds[i].Slot] = h.first + i
	}
	var ban []solver.Pick
	for s := range h.e.Pairs {
		piece, forced := want[s]
		for i, pair := range h.e.Pairs[s] {
			k := h.e.Choices[s][pair.K].Piece
			if (forced && k != piece) || (!forced && k >= h.first) {
				ban = append(ban, solver.Pick{Group: s, Column: i})
			}
		}
	}
	return ban
}

func (h *hunt) ask(ctx context.Context, allowed ...int) (*plan.Plan, error) {
	return h.e.Ask(ctx, solver.Change{Ban: h.ban(allowed...)})
}

// value works out what one find is worth; nil if nothing. known is false where time ran
// out before any set with it was found.
func (h *hunt) value(ctx context.Context, base *plan.Plan, i int) (find *Find, known bool, err error) {
	with, err := h.ask(ctx, i)
	if err != nil || !with.Has {
		return nil, err == nil && with.Status == solver.Infeasible, err
	}
	f := h.finds[i]
	f.With, f.Choice = with, with.Lines[f.Slot].Choice
	f.Stopped = with.Status == solver.Stopped || base.Status == solver.Stopped
	if !base.Has {
		f.Rescues = true
		f.Worth = h.room(with)
		return &f, true, nil
	}
	if f.Worth = base.Expected - with.Expected; f.Worth <= 0 {
		return nil, !f.Stopped, nil
	}
	if f.Worth > h.room(with) {
		var proven bool
		f.Worth, proven, err = h.within(ctx, base, i, f.Worth)
		f.Stopped = f.Stopped || !proven
	}
	return &f, true, err
}

// room is what a plan leaves of the budget; no end where there is none.
func (h *hunt) room(p *plan.Plan) catalog.Cents {
	job := &h.st.Job
	switch {
	case !job.Budget.Set:
		return catalog.Cents(catalog.MaxSum)
	case job.BudgetOn == catalog.OnExpected:
		return job.Budget.V - p.Expected
	}
	return job.Budget.V - p.Outlay
}

// within halves down to the highest price at which the set with the find, bought at
// that price, keeps the budget and costs no more than without it.
// Out of time it is a price at which that is so, and proven is false.
func (h *hunt) within(ctx context.Context, base *plan.Plan, i int, most catalog.Cents) (highest catalog.Cents, proven bool, err error) {
	proven = true
	ok, fail := catalog.Cents(0), most+1
	for fail-ok > 1 {
		price := (ok + fail) / 2
		worth, known, err := h.affordable(ctx, base, i, price)
		if err != nil {
			return 0, false, err
		}
		proven = proven && known
		if worth {
			ok = price
		} else {
			fail = price
		}
	}
	return ok, proven, nil
}

// affordable asks with the budget lowered by the price: paying it for a find that
// is sure to be used is the same as having so much less.
func (h *hunt) affordable(ctx context.Context, base *plan.Plan, i int, price catalog.Cents) (worth, known bool, err error) {
	limit := solver.LimitTo{Row: program.RowBudget, Limit: int64(h.st.Job.Budget.V - price)}
	below := int64(base.Expected - price + 1)
	res, err := h.e.Solver.Solve(ctx, solver.Change{Ban: h.ban(i), Limits: []solver.LimitTo{limit}, Below: &below}, h.e.Set)
	return res.Has, res.Has || res.Status == solver.Infeasible, err
}

// mostPairs bounds the pairs looked at.
const mostPairs = 12

// pairs looks at finds for slots of one match group or one part: what the two are
// worth together, where that differs from the sum.
func (h *hunt) pairs(ctx context.Context, out *Hunted) error {
	if !out.Plan.Has {
		return nil
	}
	looked := 0
	for a := range out.Finds {
		for b := a + 1; b < len(out.Finds) && looked < mostPairs; b++ {
			if !h.akin(out.Finds[a].Slot, out.Finds[b].Slot) {
				continue
			}
			if looked++; ctx.Err() != nil {
				out.Whole = false
				return nil
			}
			plan, err := h.ask(ctx, h.place(&out.Finds[a]), h.place(&out.Finds[b]))
			if err != nil {
				return err
			}
			if plan.Status == solver.Stopped {
				out.Whole = false // what they are worth together is not known
				continue
			}
			if together := out.Plan.Expected - plan.Expected; plan.Has && together != out.Finds[a].Worth+out.Finds[b].Worth {
				out.Pairs = append(out.Pairs, PairFind{a, b, together})
			}
		}
	}
	return nil
}

func (h *hunt) place(f *Find) int {
	return slices.IndexFunc(h.finds, func(g Find) bool { return g.Slot == f.Slot && g.Profile.Name == f.Profile.Name })
}

// akin says whether two different slots are seen together or take the same part.
func (h *hunt) akin(a, b int) bool {
	if a == b {
		return false
	}
	if h.st.Slots[a].Part == h.st.Slots[b].Part {
		return true
	}
	return slices.ContainsFunc(h.st.Matches, func(m catalog.Match) bool {
		return slices.Contains(m.Slots, a) && slices.Contains(m.Slots, b)
	})
}
