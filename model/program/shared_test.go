package program

import (
	"context"
	"math"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
)

// oneSpare is two headlamp rims that may not come, the left in one case of ten, the
// right in two, and one spare in the drawer that fits both, for 100.00. A rescue is
// 600.00 and 30 days.
func oneSpare() *catalog.State {
	st := &catalog.State{Job: catalog.Job{Title: "rims", Currency: "USD"}}
	for _, id := range []string{"rim-left", "rim-right"} {
		st.Slots = append(st.Slots, catalog.Slot{ID: id, Weight: 100, Quantity: 1,
			Rescue: jobs.Given(catalog.Cents(600_00)), RescueDays: jobs.Given(30)})
	}
	piece := func(id string, chance catalog.Micro, price catalog.Cents, fits ...int) {
		st.Pieces = append(st.Pieces, catalog.Piece{ID: id, Fits: fits, Kind: catalog.Original, Side: catalog.Shops,
			Vendor: catalog.None,
			Bundle: catalog.None, Metal: catalog.None, Quantity: 1, Chance: chance, Price: price,
			Grade: jobs.Given(catalog.Centi(90_00))})
	}
	piece("rl", 900_000, 0, 0)
	piece("rr", 800_000, 0, 1)
	piece("spare", catalog.One, 100_00, 0, 1)
	return st
}

// cheapestShared is the plan of SharedSpares in which two slots may hold one spare.
func cheapestShared(ctx context.Context, st *catalog.State, set solver.Settings) (*plan.Plan, error) {
	two, _, err := SharedSpares(ctx, st, set)
	return two, err
}

// solveShared solves with and without sharing.
func solveShared(t *testing.T, st *catalog.State) (two, one *plan.Plan) {
	t.Helper()
	two, err := cheapestShared(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if one, err = Solve(context.Background(), st, solver.Settings{}); err != nil {
		t.Fatal(err)
	}
	return two, one
}

// TestSharedSpareByHand: totals worked out by hand.
func TestSharedSpareByHand(t *testing.T) {
	tests := []struct {
		name     string
		change   func(st *catalog.State)
		one, two catalog.Cents // totals held for one, for two; -1: no plan
		yields   int           // slot; -1: nothing is shared
		chance   float64
	}{
		// for the right: 0.2 x 100 + 0.1 x 600. For both: 0.1 x 100 + 0.2 x 100, and
		// 0.02 x (600 - 100) where both fail; of equals the later yields.
		{"both fail: one rescue", func(*catalog.State) {}, 80_00, 40_00, 1, 0.98},
		// 0.02 x (400 - 100)
		{"the one that is rescued cheaply yields", func(st *catalog.State) { st.Slots[0].Rescue.V = 400_00 }, 60_00,
			36_00, 0, 0.98},
		// a rescue of the left is in time, one of the right isn't: the right must have a spare of
		// its own, and the left yields
		{"by the date only the dear one may yield", func(st *catalog.State) {
			st.Job.WithinDays = jobs.Given(20)
			st.Slots[0].Rescue.V, st.Slots[0].RescueDays.V = 900_00, 10
		}, 110_00, 46_00, 0, 0.98},
		{"by the date neither may yield", func(st *catalog.State) { st.Job.WithinDays = jobs.Given(20) }, -1, -1, -1,
			0},
		// 0.3 x 600: nobody falls back on it
		{"the spare is dearer than a rescue", func(st *catalog.State) { st.Pieces[2].Price = 700_00 }, 180_00, 180_00,
			-1, 0.72},
		// 0.3 x 700, and 0.02 x (600 - 700)
		{"dearer, but the chance is asked for", func(st *catalog.State) {
			st.Pieces[2].Price = 700_00
			st.Job.Completion = jobs.Given(catalog.Micro(950_000))
		}, -1, 208_00, 1, 0.98},
		{"only sharing gives the chance asked for", func(st *catalog.State) {
			st.Job.Completion = jobs.Given(catalog.Micro(979_000))
		}, -1, 40_00, 1, 0.98},
		{"not even sharing gives it",
			func(st *catalog.State) { st.Job.Completion = jobs.Given(catalog.Micro(981_000)) }, -1, -1, -1, 0},
		{"within the budget only if shared", func(st *catalog.State) {
			st.Job.Budget, st.Job.BudgetOn = jobs.Given(catalog.Cents(40_00)), catalog.OnExpected
		}, -1, 40_00, 1, 0.98},
		{"over it, if shared", func(st *catalog.State) {
			st.Job.Budget, st.Job.BudgetOn = jobs.Given(catalog.Cents(39_99)), catalog.OnExpected
		}, -1, -1, -1, 0},
		{"a spare for each", func(st *catalog.State) { st.Pieces[2].Quantity = 2 }, 30_00, 30_00, -1, 1},
		// the left needs both of the bag: 0.1 x 200 + 0.2 x 100 + 0.02 x (600 - 200), the left yields
		{"two for the left, one of them for the right", func(st *catalog.State) {
			st.Slots[0].Quantity, st.Pieces[0].Quantity, st.Pieces[2].Quantity = 2, 2, 2
		}, 80_00, 48_00, 0, 0.98},
		// 0.95 x 100 + 0.05 x 600 = 125: 0.1 x 125 + 0.2 x 125 + 0.02 x (600 - 125);
		// 1 - (0.1 x 0.8 x 0.05 + 0.9 x 0.2 x 0.05 + 0.02)
		{"the spare may fail too", func(st *catalog.State) { st.Pieces[2].Chance = 950_000 }, 85_00, 47_00, 1, 0.967},
		// out of a bundle at 20.00, needed once: 0.02 x 600 more
		{"out of a bundle", func(st *catalog.State) {
			st.Bundles = []catalog.Bundle{{ID: "box", Vendor: catalog.None, Price: 20_00}}
			st.Pieces[2].Bundle, st.Pieces[2].Price = 0, 0
		}, 80_00, 32_00, 1, 0.98},
		{"it is traded away for more", func(st *catalog.State) {
			st.Trades = []catalog.Trade{{ID: "swap", Give: 2, Get: 0, Credit: 150_00}}
		}, 30_00, 30_00, -1, 0.72},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			st := oneSpare()
			test.change(st)
			two, one := solveShared(t, st)
			if one.Has != (test.one >= 0) || one.Has && one.Expected != test.one {
				t.Errorf("held for one: %t, %d, want %d", one.Has, one.Expected, test.one)
			}
			if two.Has != (test.two >= 0) || two.Has && two.Expected != test.two {
				t.Fatalf("held for two: %t, %d, want %d", two.Has, two.Expected, test.two)
			}
			if countShared(one) > 0 || (countShared(two) > 0) != (test.yields >= 0) {
				t.Fatalf("%d and %d lines share", countShared(one), countShared(two))
			}
			if two.Has && math.Abs(two.Completion-test.chance) > 1e-12 {
				t.Errorf("chance %v, want %v", two.Completion, test.chance)
			}
			for s, l := range two.Lines {
				if l.Sharing != nil && (l.Sharing.With != 1-s || l.Sharing.Yields != (s == test.yields)) {
					t.Errorf("slot %d: %+v", s, *l.Sharing)
				}
			}
		})
	}
}

// TestSharedSpareOfThree: of three slots that want one spare two share it, and no more.
func TestSharedSpareOfThree(t *testing.T) {
	st := oneSpare()
	st.Slots = append(st.Slots, catalog.Slot{ID: "tail", Quantity: 1, Rescue: jobs.Given(catalog.Cents(600_00))})
	third := st.Pieces[1]
	third.ID, third.Fits = "tl", []int{2}
	st.Pieces = append(st.Pieces, third)
	st.Pieces[2].Fits = []int{0, 1, 2}
	two, _ := solveShared(t, st)
	// 0.1 x 600, and 2 x 0.2 x 100 + 0.04 x 500
	if countShared(two) != 2 || two.Expected != 120_00 || two.Lines[0].Sharing != nil {
		t.Errorf("%d lines share, total %d", countShared(two), two.Expected)
	}
}

// TestSharedSparePlatedOtherwise: the spare goes to the left as it is, and has to be made
// to fit the right: an hour of 50.00, and one in ten breaks.
func TestSharedSparePlatedOtherwise(t *testing.T) {
	st := oneSpare()
	st.Shop.Hourly = jobs.Given(catalog.Cents(50_00))
	st.Pieces[2].Fits = []int{0}
	st.Pieces[2].Fit = []catalog.Fit{{Slot: 1, Hours: catalog.One, Breakage: 100_000, Cap: 100_00}}
	two, _ := solveShared(t, st)
	// left 0.1 x 100; right 0.2 x (150 + 0.1 x 600) and 0.02 x (600 - 210), less than 0.02 x (600 - 100)
	if two.Expected != 10_00+42_00+7_80 || !two.Lines[1].Sharing.Yields {
		t.Errorf("total %d, %+v", two.Expected, two.Lines[1].Sharing)
	}
}

// TestSharedSpareWithoutIt: without the option nothing of it is in the program.
func TestSharedSpareWithoutIt(t *testing.T) {
	st := oneSpare()
	p := Compile(st, Options{})
	if len(p.Problem.Groups) != len(st.Slots) || len(p.spares) > 0 || slices.ContainsFunc(p.Problem.Rows,
		func(r solver.Row) bool { return r.Sense == solver.AtLeast && r.Name != "mean" }) {
		t.Error("a program without sharing has groups or rows of it")
	}
}
