// Package solved gives tests the cheapest plan of a job; it stands apart from package jobs,
// which package program tests itself with.
package solved

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// Cheapest is the cheapest plan of a state; an error ends the test.
func Cheapest(t *testing.T, st *catalog.State) *plan.Plan {
	t.Helper()
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return plan
}
