package joint

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"brightset/model/internal/jobs"
	"brightset/model/internal/outside"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestJointOutside gives another solver the program of several jobs with all lines,
// before any dominance, and compares optima: larger shops than can be tried out.
// By default their drawers hold less.
func TestJointOutside(t *testing.T) {
	found, saves, shops := 0, 0, campaign.Cases(4, 6)
	for i := range shops {
		f := outside.Family(4)
		if i%2 == 1 {
			f.Budget, f.Owned = 0.4, 0.8
		}
		pair := jobs.Shop(f, 2, campaign.Cases(8, 8), uint64(i))
		out, err := Solve(context.Background(), pair, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		p := newProgram(pair, program.Options{FixedLimits: true, AllLines: true})
		mps := filepath.Join(t.TempDir(), fmt.Sprintf("shop-%d.mps", i))
		outside.WriteAll(t, &program.Program{Problem: p.Problem}, mps)
		want, has := outside.Cbc(t, mps)
		if has != out.Has || has && (want != float64(out.Weighed()) || out.Status != solver.Optimal) {
			t.Errorf("shop %d: %v %d, cbc %v %v", i, out.Status, out.Weighed(), has, want)
		}
		if !out.Has {
			continue
		}
		found++
		if out.Jobs[0].Alone.Weighed()+out.Jobs[1].Alone.Weighed() > out.Weighed() {
			saves++
		}
	}
	if found < shops/2 || saves < shops/3 {
		t.Errorf("%d shops have a plan, in %d it saves: too few to tell", found, saves)
	}
}
