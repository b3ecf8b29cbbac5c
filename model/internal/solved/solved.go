package solved

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

func Cheapest(t *testing.T, st *catalog.State) *plan.Plan {
	t.Helper()
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return plan
}
