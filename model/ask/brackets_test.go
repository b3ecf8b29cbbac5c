package ask

import (
	"context"
	"testing"

	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestStopBrackets: where searches are cut off, the price at which to stop, and what knowing
// a figure is worth, lie between the two sums that are said.
func TestStopBrackets(t *testing.T) {
	ctx, open, worth := context.Background(), 0, 0
	f, _ := seeded.Named("car-30")
	f.Slots = 7
	for seed := range uint64(campaign.Cases(2, 100)) {
		st := seeded.Job(f, seed+1)
		plan, err := program.Solve(ctx, st, solver.Settings{})
		if err != nil || !plan.Has {
			continue
		}
		exact, whole, err := StopPrices(ctx, st, plan, solver.Settings{})
		if err != nil || !whole {
			t.Fatalf("seed %d: not whole (%v)", seed, err)
		}
		cut, whole, err := StopPrices(ctx, st, plan, solver.Settings{NodeLimit: 1})
		if err != nil {
			t.Fatal(err)
		}
		for i := range cut {
			for k := range exact {
				if p, q := &exact[k], &cut[i]; p.Slot == q.Slot {
					if !p.Proven() || q.Highest > p.Highest || q.Most < p.Highest {
						t.Errorf("seed %d slot %d: stop between %d and %d, by the whole search above %d", seed, p.Slot,
							q.Highest, q.Most, p.Highest)
					}
					if q.Proven() {
						continue
					}
					if open++; whole {
						t.Errorf("seed %d: whole, and slot %d is not proven", seed, p.Slot)
					}
				}
			}
		}
		all, _, err := InformationValues(ctx, st, plan, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		some, _, err := InformationValues(ctx, st, plan, solver.Settings{NodeLimit: 1})
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
					worth++
				}
			}
		}
	}
	if open+worth < 3 {
		t.Errorf("%d prices and %d worths between two sums: too few to tell", open, worth)
	}
}
