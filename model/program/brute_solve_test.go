package program

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// solveAndTry solves a state and demands the answer of the exhaustive
// search: the same status, the same total, and a plan that passes the check.
func solveAndTry(t *testing.T, st *catalog.State) (total int64, feasible bool) {
	t.Helper()
	plan, err := Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatalf("solve: %v", err)
	}
	total, feasible, best := adapter.Cheapest(st)
	want := solver.Infeasible
	if feasible {
		want = solver.Optimal
	}
	if plan.Status != want || plan.Has != feasible {
		t.Errorf("status %s, in hand %t, want %s", plan.Status, plan.Has, want)
	}
	if feasible && plan.Has && int64(plan.Weighed()) != total {
		t.Errorf("total %d, want %d", plan.Weighed(), total)
		adapter.LogPlan(t, "solve", st, plan)
		adapter.LogPlan(t, "exhaustive", st, best)
	}
	for _, v := range check.Check(st, plan) {
		t.Error(v)
	}
	return total, feasible
}

// TestChoicesRandom: every slot has the choices that the check derives, with
// the same figures, chosen in some plan or not.
func TestChoicesRandom(t *testing.T) {
	for seed := range int64(campaign.Cases(160, 400)) {
		slots := 1 + int(seed%6)
		t.Run(jobs.CaseName(seed, slots, "choices"), func(t *testing.T) {
			adapter.CompareChoices(t, jobs.Random(seed, slots, jobs.Options{}))
		})
	}
}

// TestSolveRandom compares hundreds of random jobs.
func TestSolveRandom(t *testing.T) {
	for slots := 1; slots <= 6; slots++ {
		for seed := range int64(campaign.Cases(24, 60)) {
			name := jobs.CaseName(seed, slots, "")
			t.Run(name, func(t *testing.T) { solveAndTry(t, jobs.Random(seed, slots, jobs.Options{})) })
		}
	}
}

// TestBestRandom: the highest grade within the rules, then the least total.
func TestBestRandom(t *testing.T) {
	for slots := 1; slots <= 4; slots++ {
		for seed := range int64(campaign.Cases(20, 40)) {
			t.Run(jobs.CaseName(seed, slots, "best"), func(t *testing.T) {
				st := jobs.Random(seed, slots, jobs.Options{})
				grade, total, feasible, best := adapter.Best(st)
				plan, err := Best(context.Background(), st, solver.Settings{})
				if err != nil {
					t.Fatalf("best: %v", err)
				}
				if plan.Has != feasible {
					t.Fatalf("in hand %t, want %t", plan.Has, feasible)
				}
				sum := int64(0)
				for _, l := range plan.Lines {
					sum += int64(st.Slots[l.Slot].Weight) * int64(l.Choice.Grade)
				}
				if feasible && (sum != grade || int64(plan.Weighed()) != total) {
					t.Errorf("weight x grade %d at %d, want %d at %d", sum, plan.Weighed(), grade, total)
					adapter.LogPlan(t, "best", st, plan)
					adapter.LogPlan(t, "exhaustive", st, best)
				}
				for _, v := range check.Check(st, plan) {
					t.Error(v)
				}
			})
		}
	}
}

// TestSolveRules switches each rule and each kind of cost off in turn: the
// solver has to agree with the exhaustive search both ways, and over the jobs
// the rule has to decide something.
func TestSolveRules(t *testing.T) {
	for _, rule := range rulesOff {
		t.Run(rule.name, func(t *testing.T) {
			changed := 0
			for seed := range int64(40) {
				if changed > 0 && seed >= int64(campaign.Cases(16, 40)) {
					break
				}
				slots := 2 + int(seed%3)
				t.Run(jobs.CaseName(seed, slots, rule.name), func(t *testing.T) {
					with := jobs.Random(seed, slots, rule.options())
					without := jobs.Random(seed, slots, rule.options())
					rule.off(without)
					total, ok := solveAndTry(t, with)
					free, possible := solveAndTry(t, without)
					if ok != possible || total != free {
						changed++
					}
				})
			}
			if changed == 0 {
				t.Errorf("switching %q off changes no optimum", rule.name)
			}
		})
	}
}

// TestFewConcerned: where few slots have to do with a row, the least total is that of the
// exhaustive search.
func TestFewConcerned(t *testing.T) {
	feasible, all := 0, campaign.Cases(300, 20_000)
	for seed := range int64(all) {
		t.Run(jobs.CaseName(seed, 5, "few"), func(t *testing.T) {
			if _, ok := solveAndTry(t, jobs.FewConcerned(seed)); ok {
				feasible++
			}
		})
	}
	if feasible < all/3 {
		t.Errorf("only %d of %d jobs can be done", feasible, all)
	}
}
