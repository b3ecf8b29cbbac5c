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

// TestPairBudgetByHand: two finds of which each makes an own piece worth 90.00 needless are
// together worth no more than the budget of 100.00.
func TestPairBudgetByHand(t *testing.T) {
	st := freeToHang(90_00)
	right := st.Pieces[0]
	right.ID, right.Fits = "right", []int{jobs.Right}
	st.Pieces = append(st.Pieces, right)
	h, err := Hunt(context.Background(), st, nil, solver.Settings{})
	if err != nil || !h.Whole {
		t.Fatalf("%+v %v", h, err)
	}
	told := 0
	for _, p := range h.Pairs {
		if a, b := &h.Finds[p.A], &h.Finds[p.B]; a.Profile.Grade.Set && b.Profile.Grade.Set {
			if told++; a.Worth != 90_00 || b.Worth != 90_00 || p.Together != 100_00 || p.Most != p.Together {
				t.Errorf("%d and %d one by one, together %d to %d", a.Worth, b.Worth, p.Together, p.Most)
			}
		}
	}
	if told != 4 {
		t.Errorf("%d pairs are told, not 4", told)
	}
}

// TestPairBudget: what two finds are worth together is the highest price for both at which the
// set keeps the budget and costs no more than without them; where nothing is told of a pair, what
// they are worth one by one is.
func TestPairBudget(t *testing.T) {
	told, alike := 0, 0
	budgeted(t, 120, 1000, func(name string, st *catalog.State, h *Hunted) {
		if !h.Plan.Has {
			return
		}
		together := map[[2]int]catalog.Cents{}
		for _, p := range h.Pairs {
			together[[2]int{p.A, p.B}] = p.Together
		}
		for _, pair := range pairsOf(h.Finds) {
			a, b := &h.Finds[pair[0]], &h.Finds[pair[1]]
			both, is := together[pair]
			if is {
				told++
			} else if alike++; paidFor(t, st, 0, a, b).Has {
				both = a.Worth + b.Worth
			} else {
				continue // no set has both
			}
			at, over := paidFor(t, st, both, a, b), paidFor(t, st, both+1, a, b)
			if both > 0 && (!at.Has || at.Weighed() > h.Plan.Weighed()) || over.Has && over.Weighed() <= h.Plan.Weighed() {
				t.Errorf("%s: %s in %d worth %d, %s in %d worth %d, together %d (told %v): at that %v %d, above %v %d, without %d",
					name, a.Profile.Name, a.Slot, a.Worth, b.Profile.Name, b.Slot, b.Worth, both, is, at.Has, at.Weighed(),
					over.Has, over.Weighed(), h.Plan.Weighed())
			}
		}
	})
	if told < 20 || alike < 5 {
		t.Errorf("%d pairs told, %d not: too few to tell", told, alike)
	}
}

// pairsOf are the pairs of finds for two slots that are looked at.
func pairsOf(finds []Find) (all [][2]int) {
	for a := range finds {
		for b := a + 1; b < len(finds) && len(all) < mostPairs; b++ {
			if finds[a].Slot != finds[b].Slot {
				all = append(all, [2]int{a, b})
			}
		}
	}
	return all
}
