package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/program"
	"brightset/solver"
)

// boughtAt is the state with the find as a piece of its own at a price, and with
// the slot locked on it if that is asked for.
func boughtAt(st *catalog.State, f *Find, price catalog.Cents, locked bool) *catalog.State {
	out := st.Clone()
	p := imagined(st, f.Slot, f.Profile, 0)
	p.Value = price / catalog.Cents(p.Quantity) // what using it forgoes counts like a price
	if locked {
		out.Locks = append(out.Locks,
			catalog.Lock{Filter: catalog.Filter{Slot: f.Slot, Piece: len(out.Pieces), Plater: catalog.None}})
	}
	// It is not to be held in reserve: a find is worth something where it hangs.
	piece := len(out.Pieces)
	out.Pieces = append(out.Pieces, p)
	for s := range out.Slots {
		if s != f.Slot {
			out.Bans = append(out.Bans,
				catalog.Ban{Filter: catalog.Filter{Slot: s, Piece: piece, Plater: catalog.None}})
		}
	}
	return out
}

func totalOf(t *testing.T, st *catalog.State) (catalog.Cents, bool) {
	t.Helper()
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return plan.Weighed(), plan.Has
}

// TestHuntByHand: at the price said, the set with the find costs what it costs
// without it; a cent above, more.
func TestHuntByHand(t *testing.T) {
	checked := 0
	look := func(name string, st *catalog.State, most int) {
		h, err := Hunt(context.Background(), st, nil, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		base, has := totalOf(t, st)
		if has != h.Plan.Has || (has && base != h.Plan.Weighed()) {
			t.Fatalf("%s: without finds %d, by hand %d", name, h.Plan.Weighed(), base)
		}
		for i := range h.Finds[:min(most, len(h.Finds))] {
			f := &h.Finds[i]
			if f.Rescues || st.Job.Budget.Set && f.Worth > 0 && st.Job.BudgetOn == catalog.OnExpected {
				continue
			}
			n := catalog.Cents(choice.Needed(&st.Slots[f.Slot]))
			at, ok := totalOf(t, boughtAt(st, f, f.Worth/n*n, true))
			if !ok || at > base {
				t.Errorf("%s: %s in %s at %d: the set costs %d (%v), without it %d", name, f.Profile.Name,
					st.Slots[f.Slot].ID, f.Worth, at, ok, base)
			}
			if st.Job.Budget.Set {
				continue // the budget may have brought the price down
			}
			if over, ok := totalOf(t, boughtAt(st, f, (f.Worth/n+1)*n, true)); ok && over <= base {
				t.Errorf("%s: %s in %s is still worth more than %d: %d against %d", name, f.Profile.Name,
					st.Slots[f.Slot].ID, f.Worth, over, base)
			}
			checked++
		}
	}
	look("demo", jobs.DemoState(t), 6)
	for seed := range int64(100) {
		look(jobs.CaseName(seed, 3, "hunt"), jobs.Random(seed, 3, jobs.Options{}), 3)
	}
	if checked < 60 {
		t.Errorf("only %d finds were checked", checked)
	}
}

// TestHuntNamed: what the user looks out for is looked at in the slots named, and a
// lower grade is worth no more than a higher one.
func TestHuntNamed(t *testing.T) {
	st := jobs.DemoState(t)
	grade := func(v catalog.Centi) catalog.Val[catalog.Centi] { return jobs.Given(v) }
	st.Wanted = []catalog.Wanted{
		{ID: "worn", Slots: []int{1}, Kind: catalog.Original, Grade: grade(72_00)},
		{ID: "fine", Slots: []int{1}, Kind: catalog.Original, Grade: grade(92_00)},
	}
	h, err := Hunt(context.Background(), st, []int{0, 1}, solver.Settings{})
	if err != nil || !h.Whole {
		t.Fatal(h, err)
	}
	worth := map[string]catalog.Cents{}
	for _, f := range h.Finds {
		if f.Profile.Name == "worn" || f.Profile.Name == "fine" {
			worth[f.Profile.Name] = f.Worth
			if f.Slot != 1 {
				t.Errorf("%s is looked for in slot %d", f.Profile.Name, f.Slot)
			}
		}
	}
	if worth["fine"] == 0 || worth["worn"] > worth["fine"] {
		t.Errorf("worth %v", worth)
	}
}
