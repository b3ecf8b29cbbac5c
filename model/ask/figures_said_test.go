package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestWorseWays: a way of a spare that is said to be for the worse makes no set cheaper, whatever is kept
// of the object's own: what is held in reserve may be, and hangs more often then.
func TestWorseWays(t *testing.T) {
	ways := 0
	seeds := []int64{63}
	for seed := range int64(campaign.Cases(300, 1000)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		st := jobs.Random(seed, 1+int(seed%2), jobs.Options{On: []string{"keep", "fallback-floor", "floor"},
			Off: []string{"budget-outlay", "budget-expected", "budget-quote", "quantity"}})
		for s := range st.Slots {
			st.Slots[s].Keep, st.Slots[s].Target.FallbackFloor = 600_00, jobs.Given(catalog.Centi(10_00))
		}
		for i := range st.Pieces {
			st.Pieces[i].Off = st.Pieces[i].Off || i%2 == 0 && st.Pieces[i].Side == catalog.Customers
		}
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		for _, o := range uncertainFigures(pl, choice.Choices(st)) {
			for i := range o.ways {
				w := &o.ways[i]
				if !w.worse || o.Planned || w.choice == nil || w.gone != nil {
					continue
				}
				ways++
				if gain := pl.Weighed() - leastWith(t, st, w); gain > 0 {
					t.Errorf("seed %d: %s of piece %d, way %d, is said to be for the worse, and saves %d", seed, o.Figure,
						o.Piece, i, gain)
				}
			}
		}
	}
	if ways < 50 {
		t.Errorf("%d ways looked at", ways)
	}
}

// leastWith is what the best set comes to, cost and keeping weighed, if a figure turns out some way.
func leastWith(t *testing.T, st *catalog.State, w *turnout) catalog.Cents {
	t.Helper()
	opt := program.Options{FixedLimits: true, AllLines: true, Adjust: w.choice}
	e, err := program.NewExplorer(context.Background(), st, opt, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if len(e.Unfilled()) > 0 {
		return catalog.Cents(catalog.MaxSum)
	}
	res, err := e.Least(context.Background(), solver.Change{})
	if err != nil {
		t.Fatal(err)
	}
	if !res.Has {
		return catalog.Cents(catalog.MaxSum)
	}
	return catalog.Cents(res.Total)
}

// TestStripFeeOfBag: what stripping shows of a bag has to be worth the fee for every piece that a slot needs.
func TestStripFeeOfBag(t *testing.T) {
	listed := 0
	seeds := []int64{109}
	for seed := range int64(campaign.Cases(1500, 3000)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		st := jobs.Random(seed, 2, jobs.Options{On: []string{"quantity", "bag", "strip", "shared"}})
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		all, _, err := StripFirst(context.Background(), pl, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range all {
			least := 1000
			for s := range st.Slots {
				if choice.FitsSlot(&st.Pieces[v.Piece], s) {
					least = min(least, st.Slots[s].Quantity)
				}
			}
			listed++
			if fee := catalog.Cents(least) * st.Platers[v.Plater].StripFee; v.Fee(st) != fee || v.AtMost <= fee && fee > 0 {
				t.Errorf("seed %d: %s at %s: worth %d, fee %d; stripping them costs %d", seed, st.Pieces[v.Piece].ID,
					st.Platers[v.Plater].ID, v.Gain, v.Fee(st), fee)
			}
		}
	}
	if listed < 5 {
		t.Errorf("%d looked at", listed)
	}
}

// TestRuledOutAdmitted: why a piece is out is not said of one way to work it where another is admitted by itself.
func TestRuledOutAdmitted(t *testing.T) {
	looked, admitted := 0, 0
	for seed := range int64(campaign.Cases(600, 2000)) {
		st := jobs.Random(seed, 2, jobs.Options{On: []string{"days"}})
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		all, _, err := RejectedPieces(context.Background(), pl, false, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range all {
			if r.Why == "" {
				continue
			}
			looked++
			for _, c := range choice.ChoicesFor(st, r.Slot) {
				if c.Piece == r.Piece && len(program.Admit(st, &c, program.Planned)) == 0 {
					if admitted++; r.Why != noLine {
						t.Errorf("seed %d, slot %d, piece %d: %q, but %s is admitted", seed, r.Slot, r.Piece, r.Why,
							jobs.ChoiceText(st, &c))
					}
					break
				}
			}
		}
	}
	if looked < 20 || admitted < 2 {
		t.Errorf("%d are out, of %d something is admitted", looked, admitted)
	}
}

// TestFewestTakers: where one or two works would do, no more are named, and none that could be left out.
func TestFewestTakers(t *testing.T) {
	for name, c := range map[string]struct{ all, want []int }{
		"one":                    {[]int{1, 2, 3}, []int{3}},
		"two":                    {[]int{1, 2, 3, 4}, []int{3, 4}},
		"three, one is left out": {[]int{1, 2, 3, 4}, []int{2, 3, 4}},
	} {
		got := fewest(c.all, func(some []int) bool { return contains(some, c.want) })
		if len(got) != len(c.want) || !contains(got, c.want) {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// contains says whether all of one list are in another.
func contains(all, some []int) bool {
	return !slices.ContainsFunc(some, func(v int) bool { return !slices.Contains(all, v) })
}

// TestOwnerMore: what the owner is told that he pays more with a piece is what his quote comes to with it locked.
func TestOwnerMore(t *testing.T) {
	st := jobs.DemoState(t)
	if !st.Quote.Given {
		t.Fatal("the demo has no quote")
	}
	pl := solved.Cheapest(t, st)
	all, _, err := RejectedPieces(context.Background(), pl, true, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	looked, other := 0, 0
	for _, r := range all {
		if r.Choice == nil {
			continue
		}
		locked := st.Clone()
		locked.Locks = append(locked.Locks, catalog.Lock{
			Filter: catalog.Filter{Slot: r.Slot, Piece: r.Piece, Plater: catalog.None}})
		with := solved.Cheapest(t, locked)
		looked++
		if got := with.ForOwner().Total - pl.ForOwner().Total; got != r.OwnerMore {
			t.Errorf("%s: %d more is said, %d by hand", st.Pieces[r.Piece].ID, r.OwnerMore, got)
		}
		if r.OwnerMore != plan.OwnerOnTop(&st.Quote, r.More) {
			other++
		}
	}
	if looked < 5 || other < 3 {
		t.Errorf("%d looked at, %d of them are not what they cost with markup and tax", looked, other)
	}
}
