package model

import (
	"context"
	"testing"

	"brightset/model/seeded"
	"brightset/solver"
)

// TestJointAlone: a gap for all jobs together is none for the plans alone, which say what
// plan says of each job by itself.
func TestJointAlone(t *testing.T) {
	for seed := range uint64(4) {
		jobs := seeded.Shop(outsideFamily(12), 2, 24, seed)
		out, err := PlanTogether(context.Background(), jobs, solver.Settings{Gap: 0.2})
		if err != nil {
			t.Fatal(err)
		}
		for j, st := range jobs {
			plan, err := Solve(context.Background(), st, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			if alone := out.Jobs[j].Alone; alone.Status != plan.Status || alone.Expected != plan.Expected {
				t.Errorf("seed %d, job %d: alone %v %d, by itself %v %d", seed, j+1, alone.Status, alone.Expected, plan.Status, plan.Expected)
			}
			if plan.Has && out.Has && out.Capped == CapAlone && out.Jobs[j].Pays > plan.Expected {
				t.Errorf("seed %d, job %d pays more than alone", seed, j+1)
			}
		}
	}
}
