package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// bracketed are small jobs of the sizes that people have, each with its plan.
func bracketed(t *testing.T, slots, change, night int, look func(seed uint64, st *catalog.State, pl *plan.Plan)) {
	t.Helper()
	f, _ := seeded.Named("car-30")
	f.Slots = slots
	for seed := range uint64(campaign.Cases(change, night)) {
		st := seeded.Job(f, seed+1)
		pl, err := program.Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if pl.Has {
			look(seed, st, pl)
		}
	}
}

// TestStopBrackets: where searches are cut off, the price at which to stop lies between the two
// sums that are said.
func TestStopBrackets(t *testing.T) {
	open := 0
	bracketed(t, 7, 8, 100, func(seed uint64, st *catalog.State, pl *plan.Plan) {
		exact, whole, err := StopPrices(context.Background(), pl, solver.Settings{})
		if err != nil || !whole {
			t.Fatalf("seed %d: not whole (%v)", seed, err)
		}
		cut, whole, err := StopPrices(context.Background(), pl, solver.Settings{NodeLimit: 1})
		if err != nil {
			t.Fatal(err)
		}
		for i := range cut {
			q := &cut[i]
			at := slices.IndexFunc(exact, func(p StopPrice) bool { return p.Slot == q.Slot })
			if at < 0 {
				continue
			}
			if p := &exact[at]; !p.Proven() || q.Highest > p.Highest || q.Most < p.Highest {
				t.Errorf("seed %d slot %d: stop between %d and %d, by the whole search above %d", seed, p.Slot, q.Highest,
					q.Most, p.Highest)
			}
			if !q.Proven() {
				if open++; whole {
					t.Errorf("seed %d: whole, and slot %d is not proven", seed, q.Slot)
				}
			}
		}
	})
	if open < 3 {
		t.Errorf("%d prices between two sums: too few to tell", open)
	}
}

// TestWorthBrackets: likewise for what knowing a figure is worth.
func TestWorthBrackets(t *testing.T) {
	open := 0
	bracketed(t, 3, 2, 100, func(seed uint64, st *catalog.State, pl *plan.Plan) {
		all, _, err := InformationValues(context.Background(), pl, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		some, _, err := InformationValues(context.Background(), pl, solver.Settings{NodeLimit: 1})
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range all {
			for _, q := range some {
				if o.Figure != q.Figure || o.Piece != q.Piece || o.Plater != q.Plater || o.Metal != q.Metal || o.Work != q.Work {
					continue
				}
				if o.Gain != o.AtMost || q.Gain > o.Gain || q.AtMost < o.Gain {
					t.Errorf("seed %d, %s of %d: worth %d to %d, by the whole search %d", seed, o.Figure, o.Piece, q.Gain,
						q.AtMost, o.Gain)
				}
				if q.Gain < q.AtMost {
					open++
				}
			}
		}
	})
	if open < 3 {
		t.Errorf("%d worths between two sums: too few to tell", open)
	}
}

// TestLeadBrackets: likewise for what waiting for a piece is worth.
func TestLeadBrackets(t *testing.T) {
	open := 0
	f, _ := seeded.Named("car-30")
	f.Slots, f.Leads = 8, 0.3
	for seed := range uint64(campaign.Cases(8, 100)) {
		ctx, st := context.Background(), seeded.Job(f, seed+1)
		pl, err := program.Solve(ctx, st, solver.Settings{})
		if err != nil || !pl.Has {
			continue
		}
		exact, whole, err := Leads(ctx, pl, solver.Settings{})
		if err != nil || !whole {
			t.Fatalf("seed %d: not whole (%v)", seed, err)
		}
		cut, whole, err := Leads(ctx, pl, solver.Settings{NodeLimit: 1})
		if err != nil || len(cut) != len(exact) {
			t.Fatalf("seed %d: %d leads of %d (%v)", seed, len(cut), len(exact), err)
		}
		for i := range cut {
			var never Lead
			never.weigh(nil, pl)
			for _, l := range []Lead{cut[i], never} {
				is := &exact[i]
				if l.Worth > is.Most || l.Most < is.Worth || is.Needed && l.Most < catalog.Cents(catalog.MaxSum) {
					t.Errorf("seed %d: worth %d to %d, by the whole search %d (needed %v)", seed, l.Worth, l.Most, is.Worth,
						is.Needed)
				}
			}
			if cut[i].Unproven {
				if open++; whole {
					t.Errorf("seed %d: whole, and a lead is not proven", seed)
				}
			}
			if !never.Unproven {
				t.Errorf("seed %d: what was never asked is proven", seed)
			}
		}
	}
	if open < 3 {
		t.Errorf("%d leads of which the worth is not proven: too few to tell", open)
	}
}

// TestPairBrackets: where searches are cut off, what two finds are worth together lies between
// the two sums that are said, and only what is worth something else one by one is told.
func TestPairBrackets(t *testing.T) {
	told := 0
	bracketed(t, 8, 16, 100, func(seed uint64, st *catalog.State, pl *plan.Plan) {
		ctx := context.Background()
		for _, budget := range []catalog.Cents{st.Job.Budget.V, min(st.Job.Budget.V, pl.Outlay+20_00)} {
			st.Job.Budget.V = budget
			cut, err := Hunt(ctx, st, nil, solver.Settings{NodeLimit: 4})
			if err != nil {
				t.Fatal(err)
			}
			h, err := newHunt(ctx, st, nil, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			whole := &Hunted{Plan: pl, Finds: cut.Finds}
			for _, p := range cut.Pairs {
				is := PairFind{A: p.A, B: p.B}
				if got, err := h.weigh(ctx, whole, &is); err != nil || got != weighed || is.Together != is.Most {
					t.Fatalf("seed %d: %+v %v", seed, is, err)
				}
				if p.Together > is.Together || p.Most < is.Together {
					t.Errorf("seed %d, budget %d: together %d to %d, by the whole search %d", seed, budget, p.Together, p.Most,
						is.Together)
				}
				if p.Together < p.Most || cut.Finds[p.A].Stopped || cut.Finds[p.B].Stopped {
					told++
				}
			}
		}
	})
	if told < 3 {
		t.Errorf("%d pairs told of which something is not proven: too few to tell", told)
	}
}

// TestStopKnown: a price of which no more is known than that going on is right as planned is none.
func TestStopKnown(t *testing.T) {
	open := catalog.Cents(catalog.MaxSum)
	for _, c := range []struct {
		planned, highest, most catalog.Cents
		known                  bool
	}{{50, 50, 50, true}, {50, 50, 60, true}, {50, 60, open, true}, {50, 50, open, false}, {50, 60, 60, true},
		{open, open, open, true}} {
		p := StopPrice{Planned: c.planned, Highest: c.highest, Most: c.most}
		if got := p.known() != nil; got != c.known {
			t.Errorf("%+v: known %v", c, got)
		}
	}
}
