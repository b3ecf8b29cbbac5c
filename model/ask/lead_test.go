package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/solver"
)

// TestLeadsByHand: a lead is worth what the set costs more with the piece taken out
// of the state, and one day later than the last the plan's line breaks the date.
func TestLeadsByHand(t *testing.T) {
	looked, dated, traded, given := 0, 0, 0, 0
	look := func(st *catalog.State) {
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			return
		}
		leads, whole, err := Leads(context.Background(), plan, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		for _, lead := range leads {
			looked++
			if lead.Given {
				given++
			}
			gone := st.Clone()
			gone.Pieces[lead.Piece].Fits, gone.Pieces[lead.Piece].Fit = nil, nil
			gone.Trades = slices.DeleteFunc(gone.Trades, func(t catalog.Trade) bool { return t.Give == lead.Piece })
			if len(gone.Trades) < len(st.Trades) {
				traded++
			}
			other := solved.Cheapest(t, gone)
			if other.Has == lead.Needed || (other.Has && other.Weighed()-plan.Weighed() != lead.Worth) {
				t.Errorf("piece %d: worth %d (needed %v), by hand %d", lead.Piece, lead.Worth, lead.Needed,
					other.Weighed()-plan.Weighed())
			}
			if !lead.HasLast {
				continue
			}
			dated++
			for _, late := range []int{0, 1} {
				moved := st.Clone()
				l := &plan.Lines[lead.Slot]
				k, f := *l.Choice, l.Fallback
				shift := lead.LastDay + late - st.Job.Elapsed - choice.Arrival(st, &st.Pieces[lead.Piece])
				if lead.Reserve {
					other := *f
					other.Days += shift
					f = &other
				} else {
					k.Days += shift
				}
				if choice.LineInTime(moved, &k, f) != (late == 0) {
					t.Errorf("piece %d: %d days late, the date is kept: %v", lead.Piece, late, late == 1)
				}
			}
		}
	}
	look(jobs.DemoState(t))
	for seed := range int64(150) {
		st := jobs.Random(seed, 3, jobs.Options{})
		st.Job.Elapsed = int(seed % 3)
		look(st)
	}
	for seed := range int64(150) { // with trades of what may not come
		st := jobs.Random(seed, 3, jobs.Options{On: []string{"lead", "trade"}})
		for i := range st.Pieces {
			if st.Pieces[i].Chance < catalog.One {
				st.Trades = append(st.Trades, catalog.Trade{ID: "lead" + st.Pieces[i].ID, Give: i, Get: (i + 1) % len(st.Pieces),
					Credit: catalog.Cents(20_00 + seed)})
			}
		}
		look(st)
	}
	if looked < 20 || dated < 5 || traded < 20 || given < 20 {
		t.Errorf("%d leads looked at, %d with a last day, %d in trades, %d given", looked, dated, traded, given)
	}
}
