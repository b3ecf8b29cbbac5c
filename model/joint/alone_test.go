package joint

import (
	"context"
	"testing"

	"brightset/model/internal/jobs"
	"brightset/model/internal/outside"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// TestJointAlone: a gap for all jobs together is none for the plans alone, which say what
// plan says of each job by itself.
func TestJointAlone(t *testing.T) {
	for seed := range uint64(4) {
		pair := jobs.Shop(outside.Family(12), 2, 24, seed)
		out, err := Solve(context.Background(), pair, solver.Settings{Gap: 0.2})
		if err != nil {
			t.Fatal(err)
		}
		for j, st := range pair {
			pl, err := program.Solve(context.Background(), st, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			if alone := out.Jobs[j].Alone; alone.Status != pl.Status || alone.Expected != pl.Expected {
				t.Errorf("seed %d, job %d: alone %v %d, by itself %v %d", seed, j+1, alone.Status, alone.Expected,
					pl.Status, pl.Expected)
			}
			if pl.Has && out.Has && out.Capped == plan.CapAlone && out.Jobs[j].Pays > pl.Weighed()+out.Jobs[j].Plan.Keeps {
				t.Errorf("seed %d, job %d pays more than alone", seed, j+1)
			}
		}
	}
}
