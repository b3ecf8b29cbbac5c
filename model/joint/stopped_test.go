package joint

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/oracle"
	"brightset/model/plan"
	"brightset/solver"
)

// TestJointStopped: stopped early in any way, what is said of the plan of all jobs holds:
// it is sound, its bound is no more than the least there is, and only what is proven is
// called so.
func TestJointStopped(t *testing.T) {
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	stopped, had, none, notAlone := 0, 0, 0, 0
	for seed := range int64(60) {
		pair := randomPair(seed, 2)
		want, feasible := oracle.Together(pair, oracle.AllOfShop)
		for name, one := range map[string]struct {
			ctx context.Context
			set solver.Settings
		}{
			"one node":  {context.Background(), solver.Settings{NodeLimit: 1}},
			"a gap":     {context.Background(), solver.Settings{Gap: 0.5}},
			"no time":   {jobs.OutOfTime(t), solver.Settings{}},
			"cancelled": {cancelled, solver.Settings{}},
		} {
			out, err := Solve(one.ctx, pair, one.set)
			if err != nil {
				t.Fatalf("seed %d, %s: %v", seed, name, err)
			}
			if out.Has && !feasible || out.Status == solver.Infeasible && feasible {
				t.Errorf("seed %d, %s: %s, in hand %t; there is a plan: %t", seed, name, out.Status, out.Has, feasible)
			}
			if out.Has && (out.Bound-out.Keeps > want || out.Weighed() < want ||
				out.Status == solver.Optimal && out.Weighed() != want) {
				t.Errorf("seed %d, %s: %s, %d, bound %d; the least is %d", seed, name, out.Status, out.Weighed(),
					out.Bound, want)
			}
			if out.Status != solver.Stopped {
				continue
			}
			stopped++
			if !out.Has {
				none++
				continue
			}
			had++
			notAlone += notFoundAlone(t, out)
		}
	}
	if stopped < 20 || had < 5 || none < 5 {
		t.Errorf("stopped %d times, %d with a plan, %d without, %d with one missing alone: too few to tell", stopped,
			had, none, notAlone)
	}
}

// notFoundAlone counts jobs without a plan alone, and checks what all pay.
func notFoundAlone(t *testing.T, out *plan.Joint) (n int) {
	pays := catalog.Cents(0)
	for j := range out.Jobs {
		if pays += out.Jobs[j].Pays; !out.Jobs[j].Alone.Has {
			n++
		}
	}
	if pays != out.Expected {
		t.Errorf("the jobs pay %d of %d", pays, out.Expected)
	}
	return n
}
