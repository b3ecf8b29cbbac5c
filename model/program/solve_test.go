package program

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// Solve and Best against walk over all lines, on the states of the dominance
// test. Solve runs Check on every plan.
func TestSolveAndBest(t *testing.T) {
	solved := 0
	for seed := range uint64(60) {
		st := mixedState(rand.New(rand.NewPCG(seed, 9)))
		all := BuildAll(st)
		want, ok := walk(all.Problem, solver.Change{}, nil)
		plan, err := Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if plan.Has != ok || ok && (int64(plan.Weighed()) != want || plan.Bound != plan.Expected ||
			plan.Status != solver.Optimal) {
			t.Fatalf("seed %d: %v %d, want %d (%v)", seed, plan.Status, plan.Weighed(), want, ok)
		}
		best, err := Best(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: best: %v", seed, err)
		}
		if best.Has != ok {
			t.Fatalf("seed %d: best: %v, want %v", seed, best.Status, ok)
		}
		if !ok {
			continue
		}
		solved++
		most, _ := walk(Compile(st, Options{Best: true, AllLines: true}).Problem, solver.Change{}, nil)
		limit := solver.Change{Limits: []solver.LimitTo{{Row: RowMean, Limit: -most}}}
		if want, _ = walk(all.Problem, limit, nil); int64(best.Weighed()) != want || sumOfGrades(st, best) != -most {
			t.Fatalf("seed %d: best: grades %d for %d, want %d for %d", seed, sumOfGrades(st, best), best.Weighed(),
				-most, want)
		}
	}
	if solved < 20 {
		t.Errorf("only %d states can be solved", solved)
	}
}

func sumOfGrades(st *catalog.State, plan *plan.Plan) int64 {
	sum := int64(0)
	for i := range plan.Lines {
		sum += Weighted(st, plan.Lines[i].Choice)
	}
	return sum
}
