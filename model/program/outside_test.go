package program_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"brightset/model/internal/outside"
	"brightset/model/program"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestOutsideSolvers gives others the program with all lines, before any
// dominance, and compares optima.
func TestOutsideSolvers(t *testing.T) {
	found, jobs := 0, campaign.Cases(6, 20)
	for i := range jobs {
		slots := 8 + i*32/19
		st := seeded.Job(outside.Family(slots), uint64(i))
		plan, err := program.Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		mps := filepath.Join(t.TempDir(), fmt.Sprintf("job-%d.mps", i))
		outside.WriteAll(t, program.BuildAll(st), mps)
		others := map[string]func(*testing.T, string) (float64, bool){"cbc": outside.Cbc}
		if slots <= 20 {
			others["glpsol"] = outside.Glpsol
		}
		for name, other := range others {
			want, has := other(t, mps)
			if has != plan.Has || (has && want != float64(plan.Weighed())) {
				t.Errorf("job %d, %d slots: %v %d, %s %v %v", i, slots, plan.Status, plan.Weighed(), name, has, want)
			}
		}
		if plan.Has {
			found++
		}
	}
	if 4*found < 3*jobs {
		t.Errorf("only %d of %d jobs have a plan", found, jobs)
	}
}
