package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestHuntBrackets: where searches are cut off, what a find is worth lies between the two
// sums that are said, and nothing that is worth something is said to be worth less.
func TestHuntBrackets(t *testing.T) {
	open, ended := 0, 0
	f, _ := seeded.Named("car-30")
	f.Slots = 8
	for seed := range uint64(campaign.Cases(8, 200)) {
		st := seeded.Job(f, seed+1)
		exact, err := Hunt(context.Background(), st, nil, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if !exact.Plan.Has {
			continue
		}
		st.Job.Budget = catalog.Val[catalog.Cents]{V: exact.Plan.Outlay + 20_00, Set: true} // so that it binds
		if exact, err = Hunt(context.Background(), st, nil, solver.Settings{}); err != nil {
			t.Fatal(err)
		}
		worth := map[string]catalog.Cents{}
		name := func(f *Find) string { return st.Slots[f.Slot].ID + f.Profile.Name }
		for i := range exact.Finds {
			if f := &exact.Finds[i]; f.Stopped || f.Worth != f.Most {
				t.Fatalf("seed %d, %s: %d to %d, with all the time there is", seed, name(f), f.Worth, f.Most)
			}
			worth[name(&exact.Finds[i])] = exact.Finds[i].Worth
		}
		for _, nodes := range []int{1, 4} {
			cut, err := Hunt(context.Background(), st, nil, solver.Settings{NodeLimit: nodes})
			if err != nil {
				t.Fatal(err)
			}
			for i := range cut.Finds {
				f := &cut.Finds[i]
				if v := worth[name(f)]; f.Worth > v || f.Most < v {
					t.Errorf("seed %d, %d nodes, %s: %d to %d is said, it is worth %d", seed, nodes, name(f), f.Worth, f.Most, v)
				}
				if f.Stopped {
					open++
				}
				if f.Stopped && f.Most < catalog.Cents(catalog.MaxSum) {
					ended++
				}
				if f.Stopped && cut.Whole {
					t.Errorf("seed %d: whole, and %s is not proven", seed, name(f))
				}
			}
		}
	}
	if open < 20 || ended < 20 {
		t.Errorf("%d finds of which the worth is not proven, %d with an upper end: too few to tell", open, ended)
	}
}

// TestHuntNeededBrackets: where searches are cut off, what a budget leaves for a find that is
// needed lies between the two sums that are said; that it is needed is known without one.
func TestHuntNeededBrackets(t *testing.T) {
	ctx := context.Background()
	f, _ := seeded.Named("car-30")
	f.Slots = 8
	open, known := 0, 0
	for seed := range uint64(campaign.Cases(4, 50)) {
		st := seeded.Job(f, seed+1)
		for i := range st.Pieces {
			p := &st.Pieces[i]
			p.Fits = slices.DeleteFunc(slices.Clone(p.Fits), func(s int) bool { return s == 0 })
		}
		for _, budget := range []bool{true, false} {
			st.Job.Budget = catalog.Val[catalog.Cents]{V: 100_000_00, Set: budget}
			h, err := newHunt(ctx, st, []int{0}, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			exact, err := Hunt(ctx, st, []int{0}, solver.Settings{})
			if err != nil || exact.Plan.Has {
				t.Fatalf("seed %d: %v %v", seed, exact.Plan.Status, err)
			}
			for i := range exact.Finds {
				is := &exact.Finds[i]
				cut, whole, err := h.worth(jobs.OutOfTime(t), exact.Plan, is.place, is.With)
				if err != nil {
					t.Fatal(err)
				}
				if !cut.Rescues || !is.Rescues || cut.Stopped != budget || whole == budget || is.Stopped ||
					cut.Worth > is.Worth || cut.Most < is.Worth {
					t.Errorf("seed %d, budget %v, %s: needed %v, %d to %d (proven %v); with all the time %d to %d", seed, budget,
						is.Profile.Name, cut.Rescues, cut.Worth, cut.Most, whole, is.Worth, is.Most)
				}
				if cut.Stopped {
					open++
				} else {
					known++
				}
			}
		}
	}
	if open == 0 || known == 0 {
		t.Errorf("%d finds not proven, %d known to be needed: too few to tell", open, known)
	}
}
