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
func bracketed(t *testing.T, slots, short, long int, look func(seed uint64, st *catalog.State, pl *plan.Plan)) {
	t.Helper()
	f, _ := seeded.Named("car-30")
	f.Slots = slots
	for seed := range uint64(campaign.Cases(short, long)) {
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
	bracketed(t, 7, 4, 100, func(seed uint64, st *catalog.State, pl *plan.Plan) {
		exact, whole, err := StopPrices(context.Background(), st, pl, solver.Settings{})
		if err != nil || !whole {
			t.Fatalf("seed %d: not whole (%v)", seed, err)
		}
		cut, whole, err := StopPrices(context.Background(), st, pl, solver.Settings{NodeLimit: 1})
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
	bracketed(t, 3, 1, 100, func(seed uint64, st *catalog.State, pl *plan.Plan) {
		all, _, err := InformationValues(context.Background(), st, pl, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		some, _, err := InformationValues(context.Background(), st, pl, solver.Settings{NodeLimit: 1})
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
