package joint

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/oracle"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestJointBrute: the cheapest plan of two jobs together, and apart, is what trying
// everything gives; nobody pays more than without the other.
func TestJointBrute(t *testing.T) {
	seen := map[string]int{}
	for slots, seeds := range []int{1: campaign.Cases(76, 1500), 2: campaign.Cases(76, 1500), 3: campaign.Cases(14, 250)} {
		for seed := range int64(seeds) {
			t.Run(jobs.CaseName(seed, slots, "pair"), func(t *testing.T) {
				pair := randomPair(seed, slots)
				out, err := Solve(context.Background(), pair, solver.Settings{})
				if err != nil {
					t.Fatal(err)
				}
				want, feasible := oracle.Together(pair, oracle.AllOfShop)
				if out.Has != feasible || out.Has && (out.Status != solver.Optimal || out.Weighed() != want) {
					t.Fatalf("%s, %d in hand %t; by trying everything %d, %t", out.Status, out.Weighed(), out.Has, want,
						feasible)
				}
				if !out.Has {
					seen["no plan"]++
					return
				}
				noteJoint(t, seen, out)
				apart, err := program.SolveOnce(context.Background(),
					NewProgram(context.Background(), pair).Apart().Problem, solver.Change{},
					solver.Settings{})
				if err != nil {
					t.Fatal(err)
				}
				if want, _ := oracle.Together(pair, oracle.Nothing); catalog.Cents(apart.Total) != want {
					t.Errorf("apart %d, by trying everything %d", apart.Total, want)
				}
				if catalog.Cents(apart.Total) < out.Weighed() {
					t.Errorf("together %d, apart %d", out.Weighed(), apart.Total)
				}
			})
		}
	}
	for _, what := range []string{"no plan", "saves", "capped apart", "evened", "shared charge", "budget",
		"uneven shares"} {
		if seen[what] < campaign.Cases(4, 30) {
			t.Errorf("only %d pairs with: %s; seen %v", seen[what], what, seen)
		}
	}
}

// noteJoint counts what happened, so that a test without cases can't pass, and checks
// what the jobs pay against their plans alone.
func noteJoint(t *testing.T, seen map[string]int, out *plan.Joint) {
	alone, pays := catalog.Cents(0), catalog.Cents(0)
	for j := range out.Jobs {
		job := &out.Jobs[j]
		alone += job.Alone.Weighed()
		most := job.Alone.Weighed() + job.Plan.Keeps
		pays += job.Pays
		if out.Capped == plan.CapAlone && job.Pays > most {
			t.Errorf("job %d pays %d, at most %d alone", j+1, job.Pays, most)
		}
		if job.Evened != 0 {
			seen["evened"]++
		}
		if job.State.Job.Budget.Set {
			seen["budget"]++
		}
	}
	if pays != out.Expected {
		t.Errorf("the jobs pay %d, the total is %d", pays, out.Expected)
	}
	switch {
	case out.Capped == plan.CapApart:
		seen["capped apart"]++
		if alone >= out.Weighed() {
			t.Errorf("not capped by %d alone, though it comes to %d", alone, out.Weighed())
		}
	case out.Weighed() < alone:
		seen["saves"]++
	}
	for _, c := range out.Charges {
		if c.Shares[0] > 0 && c.Shares[1] > 0 {
			seen["shared charge"]++
			if c.Shares[0] != c.Shares[1] {
				seen["uneven shares"]++
			}
		}
	}
}
