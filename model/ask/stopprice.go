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

// firstOver is how far above the planned price a stop price is looked for first.
const firstOver = catalog.Cents(100_00)

// StopPrice is the highest price after stripping, for one piece, at which going on is
// still the thing to do: above it, have him stop, take the piece back and decide again.
type StopPrice struct {
	Slot    int
	Choice  *plan.Choice
	Planned catalog.Cents // the plater's part for one piece, as planned
	Highest catalog.Cents
	// Most is Highest, where that is proven; where time was up before, going on is right up
	// to Highest at least, and not above Most. catalog.MaxSum: no end is known.
	Most     catalog.Cents
	NoOther  bool // nothing else could hang there: only the budget sets an end, or nothing does
	ByBudget bool // above it the budget is broken
}

// StopPrices looks at every planned piece whose price may still change: without a firm
// quote and not yet approved. He names his price when the piece is with him and
// stripped. By then all that the plan sends has been sent, so that freight, what the
// lots lack to their minimum and the works of others are spent, and he does keep the
// piece. Going on costs more with the price; taking the piece back costs the fee for
// stripping and the cheapest set in which somebody else plates it, or it is not used:
// where they meet is where to stop. One solve each; whole is false where time ran out, or a search
// came to the limit of the settings.
// A bag of pieces that goes to two platers is left out.
func StopPrices(ctx context.Context, plan *plan.Plan,
	set solver.Settings) (all []StopPrice, whole bool, err error) {
	st := plan.Of
	clock := newClock(ctx, set)
	ctx, done := clock.within()
	defer done()
	sent := whenSent(ctx, plan)
	if sent == nil {
		return nil, false, nil
	}
	base, err := (&program.Explorer{Set: set}).After(sent.program)
	if err != nil {
		return nil, false, err
	}
	if err := learn(ctx, base, solver.Change{}); err != nil {
		return nil, false, err
	}
	var slots []int
	for s := range plan.Lines {
		if c := plan.Lines[s].Choice; PriceOpen(st, c) && sent.holds(c) {
			slots = append(slots, s)
		}
	}
	found := make([]*StopPrice, len(slots))
	share := newShares(ctx, len(slots))
	err = parallel.Do(ctx, len(slots), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		found[i], err = sent.stopPrice(within, base, plan, slots[i])
		return err
	})
	whole = err == nil
	for _, p := range found {
		if p != nil {
			all = append(all, *p)
		}
		whole = whole && p != nil && p.Proven()
	}
	return all, whole, err
}

// stopPrice asks for the cheapest set without the piece where it is; nil if that is not
// known in time.
func (u *underWay) stopPrice(ctx context.Context, base *program.Explorer, plan *plan.Plan, s int) (*StopPrice, error) {
	c := plan.Lines[s].Choice
	other, fee := u.takenBack(plan, c)
	after, err := base.After(u.program.Again(other, program.Options{GiveUp: program.Over(ctx)}, c.Piece))
	if err != nil {
		return nil, err
	}
	after.Set.TotalAlone = true
	instead, err := after.Ask(ctx, solver.Change{})
	if err != nil || instead.Status == solver.Stopped && noneBelow(instead) <= -catalog.Cents(catalog.MaxSum) {
		return nil, err
	}
	return u.stopsAt(plan, s, instead, fee).known(), nil
}

// PriceOpen says whether a plater may yet name another price.
func PriceOpen(st *catalog.State, c *plan.Choice) bool {
	p := &st.Pieces[c.Piece]
	switch {
	case !c.Plated() || p.Stage >= catalog.StageApproved:
		return false
	case c.Sent:
		return p.Stage < catalog.StagePriced
	}
	return c.Quote == catalog.None || p.Quotes[c.Quote].Firm != catalog.Firm
}

// underWay is a job on the day on which all that a plan sends is with the platers.
type underWay struct {
	before  *catalog.State
	st      *catalog.State
	program *program.Program
}

// whenSent sends all that a plan has yet to send. What that costs is taken off the
// budget. It is nil where the context ends before that.
func whenSent(ctx context.Context, pl *plan.Plan) *underWay {
	st := pl.Of
	u := &underWay{before: st, st: st.Clone()}
	spent, count := catalog.Cents(0), map[int]int{} // per piece
	for _, c := range pl.Charges {
		if c.Kind == plan.ChargePlaterFreight || c.Kind == plan.ChargeMinimum {
			spent += c.Cents
		}
	}
	for i := range pl.Lines {
		k := pl.Lines[i].Choice
		if ctx.Err() != nil {
			return nil
		}
		if !k.InLot() {
			continue
		}
		n := choice.Needed(&st.Slots[k.Slot])
		own, makers := choice.WorkBefore(st, k)
		own *= catalog.Cents(n)
		spent += own + catalog.Cents(n)*makers
		u.st.Job.Spent = append(slices.Clip(u.st.Job.Spent),
			catalog.Spent{Cents: own, Piece: catalog.None, Bears: catalog.BearsNone})
		p := &u.st.Pieces[k.Piece]
		count[k.Piece] += n
		p.Sent = catalog.Sent{Was: true, Quote: choice.Terms(st, k), Count: count[k.Piece],
			After: choice.WorksAfter(st, k)}
		p.Chance = catalog.One // what he has, has come, and was tried before it went
	}
	u.st.Job.Spend(spent)
	if u.program = program.CompileWithin(ctx, u.st, program.Options{FixedLimits: true}); u.program.GaveUp {
		return nil
	}
	return u
}

// find is what has become of a planned choice; nil where its piece went elsewhere.
func (u *underWay) find(c *plan.Choice) *plan.Choice {
	all := u.program.Choices[c.Slot]
	at := slices.IndexFunc(all, func(k plan.Choice) bool {
		return plan.SameChoice(&k, c) ||
			(k.Sent && k.Piece == c.Piece && k.Work == c.Work && k.Plater == c.Plater && k.Level == c.Level)
	})
	if at < 0 {
		return nil
	}
	return &all[at]
}

// holds says whether a choice is under way as planned.
func (u *underWay) holds(c *plan.Choice) bool {
	k := u.find(c)
	return k != nil && k.Sent && (c.Sent ||
		u.st.Pieces[c.Piece].Sent.Cost*catalog.Cents(choice.Needed(&u.st.Slots[c.Slot])) == c.Plate)
}

// takenBack is the state in which the plater of a choice has stripped the piece, and
// sends it back for a fee: of several alike all that a plan has with him.
func (u *underWay) takenBack(pl *plan.Plan, c *plan.Choice) (st *catalog.State, fee catalog.Cents) {
	st = u.st.Clone()
	if p := &st.Pieces[c.Piece]; !p.Bare() {
		for i := range pl.Lines {
			if k := pl.Lines[i].Choice; k.Piece == c.Piece && k.Plater == c.Plater {
				fee += catalog.Cents(choice.Needed(&st.Slots[k.Slot])) * st.Platers[c.Plater].StripFee
			}
		}
	}
	st.Pieces[c.Piece].Stage, st.Pieces[c.Piece].Sent = catalog.StageStripped, catalog.Sent{}
	st.Bans = append(st.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: c.Piece, Plater: c.Plater}})
	st.Job.Spend(fee)
	return st, fee
}
