package program

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
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
