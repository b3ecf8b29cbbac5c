package program

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestBudgetBesideKeeping: sets are compared by what they cost less what is kept of the object's own, and a
// budget on what is expected takes nothing off for that. So a dearer line that keeps more may be cheaper,
// weighed, than the one that alone keeps the budget. Budgets here go from just what the best set without one
// goes beyond down to half of it.
func TestBudgetBesideKeeping(t *testing.T) {
	none := 0
	for seed := range int64(campaign.Cases(200, 1000)) {
		st := jobs.Random(70_000+seed, 1+int(seed%3), jobs.Options{
			On: []string{"keep"}, Off: []string{"budget-outlay", "budget-quote", "mean", "floor"}})
		st.Job.Budget.Set = false
		free, err := Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if !free.Has {
			continue
		}
		st.Job.BudgetOn = catalog.OnExpected
		for limit := free.Expected - 1; limit > free.Expected/2; limit = limit * 9 / 10 {
			st.Job.Budget = jobs.Set(limit)
			if _, ok := solveAndTry(t, st); !ok {
				none++
				break
			}
			if t.Failed() {
				t.Fatalf("seed %d, budget %d", seed, limit)
			}
		}
	}
	if none == 0 {
		t.Error("no budget was too small for every set")
	}
}

// TestShareBesideKeeping: who of two that share a spare yields goes by cost and keeping too, and a budget on
// what is expected may want the other. Without that the seeds listed have a plan that is not found.
func TestShareBesideKeeping(t *testing.T) {
	seeds := []int64{3723, 3743, 3781, 3905, 3953, 3972, 3980}
	for seed := range int64(campaign.Cases(20, 400)) {
		seeds = append(seeds, seed)
	}
	shared := 0
	for _, seed := range seeds {
		st := scarceState(seed, 2)
		for s := range st.Slots {
			st.Slots[s].Keep = []catalog.Cents{10_00, 900_00}[(seed+int64(s))%2]
		}
		for i := range st.Pieces {
			st.Pieces[i].Off = st.Pieces[i].Side == catalog.Customers
		}
		st.Job.Completion.Set, st.Job.Budget.Set = false, false
		plan := sharedAsTried(t, seed, st)
		st.Job.BudgetOn = catalog.OnExpected
		for range 5 {
			if plan == nil || countShared(plan) == 0 {
				break
			}
			shared++
			st.Job.Budget = jobs.Set(plan.Expected - 1)
			plan = sharedAsTried(t, seed, st)
		}
	}
	if shared < 10 {
		t.Errorf("%d plans share a spare", shared)
	}
}

// TestTradeOfSharedSpare: a spare that two slots share may be what a trade gives; then it is not given. One
// row keeps what a trade gives out of all slots, and counted two lines that share it twice.
func TestTradeOfSharedSpare(t *testing.T) {
	shared := 0
	for seed := range int64(campaign.Cases(200, 1000)) {
		st := scarceState(seed, 2)
		plan := sharedAsTried(t, seed, st)
		if plan == nil || countShared(plan) == 0 {
			continue
		}
		for _, l := range plan.Lines {
			if l.Sharing != nil && choice.PieceCount(&st.Pieces[l.Fallback.Piece]) == 1 &&
				l.Choice.Piece != l.Fallback.Piece {
				st.Trades = append(st.Trades,
					catalog.Trade{ID: "spare", Give: l.Fallback.Piece, Get: l.Choice.Piece, Credit: 1})
				shared++
				break
			}
		}
		sharedAsTried(t, seed, st)
	}
	if shared < 3 {
		t.Errorf("%d plans share what a trade gives", shared)
	}
}

// sharedAsTried compares the cheapest plan in which two may share with the exhaustive search, and gives it; nil
// where there is none.
func sharedAsTried(t *testing.T, seed int64, st *catalog.State) *plan.Plan {
	t.Helper()
	got, _, err := SharedSpares(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	want, ok := triedShared(st)
	if got.Has != ok || ok && got.Weighed() != want.Weighed() {
		t.Fatalf("seed %d, budget %d: %s, in hand %t; one is %t", seed, st.Job.Budget.V, got.Status, got.Has, ok)
	}
	if !ok {
		return nil
	}
	for _, v := range check.Check(st, got) {
		t.Errorf("seed %d, budget %d: %s", seed, st.Job.Budget.V, v)
	}
	return got
}
