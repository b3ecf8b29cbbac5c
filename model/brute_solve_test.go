package model

import (
	"context"
	"fmt"
	"reflect"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// bruteSolve solves a state and demands the answer of the exhaustive
// search: the same status, the same total, and a plan that passes the check.
func bruteSolve(t *testing.T, st *catalog.State) (total int64, feasible bool) {
	t.Helper()
	plan, err := Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatalf("solve: %v", err)
	}
	total, feasible, best := bruteForce(st)
	want := solver.Infeasible
	if feasible {
		want = solver.Optimal
	}
	if plan.Status != want || plan.Has != feasible {
		t.Errorf("status %s, in hand %t, want %s", plan.Status, plan.Has, want)
	}
	if feasible && plan.Has && int64(plan.Expected) != total {
		t.Errorf("total %d, want %d", plan.Expected, total)
		bruteLogPlan(t, "solve", st, plan)
		bruteLogPlan(t, "exhaustive", st, best)
	}
	for _, v := range Check(st, plan) {
		t.Error(v)
	}
	return total, feasible
}

// bruteLogPlan shows what a plan does, to find out where two of them part.
func bruteLogPlan(t *testing.T, name string, st *catalog.State, p *Plan) {
	t.Helper()
	for _, l := range p.Lines {
		t.Logf("%s: %s: %s", name, st.Slots[l.Slot].ID, randomChoiceText(st, l.Choice))
		if l.Fallback != nil {
			t.Logf("%s:     or %s", name, randomChoiceText(st, l.Fallback))
		}
	}
	t.Logf("%s: charges %v, expected %d, outlay %d", name, p.Charges, p.Expected, p.Outlay)
}

// TestChoicesRandom: every slot has the choices that the check derives, with
// the same figures, chosen in some plan or not.
func TestChoicesRandom(t *testing.T) {
	for seed := range int64(campaign(80, 400)) {
		slots := 1 + int(seed%6)
		t.Run(randomName(seed, slots, "choices"), func(t *testing.T) {
			compareChoices(t, randomState(seed, slots, randomOptions{}))
		})
	}
}

func compareChoices(t *testing.T, st *catalog.State) {
	t.Helper()
	made := Choices(st)
	for s := range st.Slots {
		left := map[string]*Choice{}
		for i := range made[s] {
			left[bruteChoiceKey(&made[s][i])] = &made[s][i]
		}
		for _, want := range bruteChoices(st, s) {
			got := left[bruteChoiceKey(want)]
			if got == nil {
				t.Errorf("slot %d: no choice %s", s, randomChoiceText(st, want))
				continue
			}
			delete(left, bruteChoiceKey(want))
			if has := fromOracle(toOracle(got)); !reflect.DeepEqual(has, want) { // without what is for the reader alone
				t.Errorf("slot %d: %s\nhas %+v\nwant %+v", s, randomChoiceText(st, want), *has, *want)
			}
		}
		for _, extra := range left {
			t.Errorf("slot %d: no such choice as %s", s, randomChoiceText(st, extra))
		}
	}
}

func bruteChoiceKey(c *Choice) string {
	return fmt.Sprintf("%d %s %d %q %d", c.Piece, c.Work, c.Plater, c.Level, c.Quote)
}

// TestSolveRandom compares hundreds of random jobs.
func TestSolveRandom(t *testing.T) {
	for slots := 1; slots <= 6; slots++ {
		for seed := range int64(campaign(12, 60)) {
			name := randomName(seed, slots, "")
			t.Run(name, func(t *testing.T) { bruteSolve(t, randomState(seed, slots, randomOptions{})) })
		}
	}
}

// TestBestRandom: the highest grade within the rules, then the least total.
func TestBestRandom(t *testing.T) {
	for slots := 1; slots <= 4; slots++ {
		for seed := range int64(campaign(10, 40)) {
			t.Run(randomName(seed, slots, "best"), func(t *testing.T) {
				st := randomState(seed, slots, randomOptions{})
				grade, total, feasible, best := bruteBest(st)
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
				if feasible && (sum != grade || int64(plan.Expected) != total) {
					t.Errorf("weight x grade %d at %d, want %d at %d", sum, plan.Expected, grade, total)
					bruteLogPlan(t, "best", st, plan)
					bruteLogPlan(t, "exhaustive", st, best)
				}
				for _, v := range Check(st, plan) {
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
	for _, rule := range randomRules {
		t.Run(rule.name, func(t *testing.T) {
			changed := 0
			for seed := range int64(40) {
				if changed > 0 && seed >= int64(campaign(8, 40)) {
					break
				}
				slots := 2 + int(seed%3)
				t.Run(randomName(seed, slots, rule.name), func(t *testing.T) {
					with := randomState(seed, slots, rule.options())
					without := randomState(seed, slots, rule.options())
					rule.off(without)
					total, ok := bruteSolve(t, with)
					free, possible := bruteSolve(t, without)
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
