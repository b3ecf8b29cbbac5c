package program

import (
	"context"
	"math"
	"testing"

	"brightset/model/check"
	"brightset/model/choice"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
)

// TestSharedSpareOutcomes: the mean cost and the chance of random plans that share, by
// going through all that may happen to the two lines and their spare.
func TestSharedSpareOutcomes(t *testing.T) {
	seen := 0
	for seed := range int64(100) {
		st := scarceState(seed, 3)
		pl, err := cheapestShared(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range pl.Lines {
			l := &pl.Lines[i]
			if l.Sharing == nil || l.Sharing.With < l.Slot {
				continue
			}
			seen++
			o := &pl.Lines[l.Sharing.With]
			mean, fine := 0.0, 0.0
			for what := range 4 {
				a, b := what&1 > 0, what&2 > 0
				p := oneSpareChance(l.Choice, a) * oneSpareChance(o.Choice, b)
				cost := float64(l.Choice.ExpectedCost + o.Choice.ExpectedCost)
				ok := 1.0
				for _, x := range []struct {
					l     *plan.Line
					fails bool
				}{{l, a}, {o, b}} {
					switch {
					case x.fails && a && b && x.l.Sharing.Yields:
						cost, ok = cost+float64(st.Slots[x.l.Slot].Rescue.V), 0
					case x.fails:
						cost += float64(choice.FallbackCost(st, x.l.Fallback))
						ok *= oneSpareChance(x.l.Fallback, false)
					}
				}
				mean, fine = mean+p*cost, fine+p*ok
			}
			if got := float64(l.Expected + o.Expected); math.Abs(got-mean) > 3 {
				t.Errorf("seed %d: %g expected, %g on average", seed, got, mean)
			}
			if got := adapter.NoRescue(&adapter.Line{K: l.Choice, F: l.Fallback},
				&adapter.Line{K: o.Choice, F: o.Fallback}); math.Abs(got-fine) > 1e-12 {
				t.Errorf("seed %d: chance %g, %g on average", seed, got, fine)
			}
		}
	}
	if seen < 5 {
		t.Errorf("only %d pairs", seen)
	}
}

func oneSpareChance(c *plan.Choice, fails bool) float64 {
	p := float64(c.Fails) / 1e6
	if fails {
		return p
	}
	return 1 - p
}

// TestSharedSpareStopped: whenever it is stopped, what is in hand is sound, and the bound
// is one.
func TestSharedSpareStopped(t *testing.T) {
	for seed := range int64(60) {
		st := scarceState(seed, 4)
		whole, err := cheapestShared(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		p := Compile(st, Options{SharedSpares: true, FixedLimits: true, GiveUp: func() bool { return true }})
		one, err := Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		// unfinished programs look through nothing that can be shared
		first, err := p.solveSplitting(context.Background(), one, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		second, err := cheapestShared(jobs.OutOfTime(t), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for _, plan := range []*plan.Plan{first, second} {
			for _, v := range check.Check(st, plan) {
				t.Errorf("seed %d: %v", seed, v)
			}
			if whole.Has && (plan.Status == solver.Infeasible || plan.Bound-plan.Keeps > whole.Weighed()) {
				t.Errorf("seed %d: %s, bound %d, but there is a plan for %d", seed, plan.Status, plan.Bound,
					whole.Weighed())
			}
		}
		if p.GaveUp && first.Status != solver.Stopped {
			t.Errorf("seed %d: %s, though unfinished", seed, first.Status)
		}
	}
}
