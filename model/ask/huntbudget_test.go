package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// paidFor is the cheapest set with finds as pieces that hang where they were looked for, all of
// them bought for one price.
func paidFor(t *testing.T, st *catalog.State, price catalog.Cents, finds ...*Find) *plan.Plan {
	t.Helper()
	st = st.Clone()
	for i, f := range finds {
		p := imagined(st, f.Slot, f.Profile, i)
		p.Price, price = price, 0 // the first bears it
		piece := len(st.Pieces)
		st.Pieces = append(st.Pieces, p)
		only := catalog.Filter{Slot: f.Slot, Piece: piece, Plater: catalog.None}
		st.Locks = append(st.Locks, catalog.Lock{Filter: only})
		for only.Slot = range st.Slots {
			if only.Slot != f.Slot { // not held in reserve elsewhere either
				st.Bans = append(st.Bans, catalog.Ban{Filter: only})
			}
		}
	}
	pl, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return pl
}

// budgeted are random jobs of two slots with a budget on each of what there may be one on.
func budgeted(t *testing.T, change, night int, look func(name string, st *catalog.State, h *Hunted)) {
	t.Helper()
	kinds := []string{"budget-outlay", "budget-expected", "budget-quote"}
	for k, kind := range kinds {
		off := append([]string{"quantity", "lock"}, kinds[:k]...)
		for seed := range int64(campaign.Cases(change, night)) {
			st := jobs.Random(seed, 2, jobs.Options{On: []string{kind}, Off: off})
			st.Slots[0].Part, st.Slots[1].Part = "rim", "rim"
			h, err := Hunt(context.Background(), st, nil, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			look(jobs.CaseName(seed, 2, kind), st, h)
		}
	}
}

// freeToHang is a job with a budget of 100.00 and a piece for the left slot that costs no money,
// but forgoes what it would fetch.
func freeToHang(value catalog.Cents) *catalog.State {
	st := jobs.Tiny()
	st.Job.Budget = jobs.Given[catalog.Cents](100_00)
	own := jobs.TinyPiece("own")
	own.Fits, own.Grade, own.Value = []int{jobs.Left}, jobs.Given[catalog.Centi](90_00), value
	st.Pieces = []catalog.Piece{own}
	return st
}

// TestHuntNeededByHand: the cheapest set with a find that is needed has the other slot's piece
// bought for 40.00 of the budget of 100.00; with the own one all of it is left for the find.
func TestHuntNeededByHand(t *testing.T) {
	st := freeToHang(50_00)
	bought := jobs.TinyPiece("bought")
	bought.Fits, bought.Grade, bought.Price = []int{jobs.Left}, jobs.Given[catalog.Centi](90_00), 40_00
	st.Pieces = append(st.Pieces, bought)
	h, err := Hunt(context.Background(), st, nil, solver.Settings{})
	if err != nil || len(h.Finds) == 0 || !h.Whole {
		t.Fatalf("%+v %v", h, err)
	}
	for i := range h.Finds {
		if f := &h.Finds[i]; f.Profile.Grade.Set && (!f.Rescues || f.Worth != 100_00 || f.Most != f.Worth) {
			t.Errorf("%s: needed %v, worth %d to %d, not 10000", f.Profile.Name, f.Rescues, f.Worth, f.Most)
		}
	}
}

// TestHuntNeededBudget: of a find that is needed what is said is the highest price at which
// there is a set.
func TestHuntNeededBudget(t *testing.T) {
	looked := 0
	budgeted(t, 240, 2000, func(name string, st *catalog.State, h *Hunted) {
		for i := range h.Finds {
			f := &h.Finds[i]
			if !f.Rescues {
				continue
			}
			looked++
			if at, over := paidFor(t, st, f.Worth, f), paidFor(t, st, f.Worth+1, f); !at.Has || over.Has || f.Stopped {
				t.Errorf("%s: %s in %d, worth %d to %d: a set at that %v, a cent above %v", name, f.Profile.Name, f.Slot,
					f.Worth, f.Most, at.Has, over.Has)
			}
		}
	})
	if looked < 20 {
		t.Errorf("%d finds that are needed: too few to tell", looked)
	}
}
