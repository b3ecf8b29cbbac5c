package joint

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/jobs"
	"brightset/model/internal/oracle"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// randomPair makes two random jobs of one shop: the same platers, sellers and drawers,
// other slots, pieces of the customer's, targets, budgets and dates.
func randomPair(seed int64, slots int) []*catalog.State {
	var pair []*catalog.State
	for n := range 2 {
		j := &jobs.RandomJob{Seed: seed, St: &catalog.State{}, Opt: jobs.Options{Off: []string{"unknown-metal"}}}
		j.Tables()
		j.Sellers()
		j.Platers()
		j.Slots(slots)
		j.Pieces()
		intoDrawers(j.St, rand.New(rand.NewPCG(uint64(seed), 7)))
		j.Seed = seed + 1000*int64(n)
		r := j.Of("pair")
		for s := range j.St.Slots {
			j.St.Slots[s].Weight = jobs.RandomFrom[catalog.Centi](r, 1, 3) * 100
			j.St.Slots[s].Rescue = jobs.RandomSet(jobs.RandomFrom[catalog.Cents](r, 150_00, 700_00))
			j.St.Slots[s].Area = jobs.RandomSet(jobs.RandomFrom[catalog.Micro](r, 400_000, 3_500_000))
		}
		for i := range j.St.Pieces {
			if p := &j.St.Pieces[i]; !p.InShop && jobs.RandomChance(r, 60) {
				p.Grade = jobs.RandomSet(jobs.RandomFrom[catalog.Centi](r, 40_00, 97_00))
			}
		}
		j.Trades()
		foreignTrade(j.St, r)
		j.Targets()
		j.Matches()
		j.Filters()
		j.Limits()
		pair = append(pair, j.St)
	}
	return pair
}

// intoDrawers makes the shop's most of what is not the customer's.
func intoDrawers(st *catalog.State, r *rand.Rand) {
	for i := range st.Pieces {
		if p := &st.Pieces[i]; p.Side != catalog.Customers && jobs.RandomChance(r, 75) {
			p.InShop = true
		}
	}
}

// foreignTrade gives a piece of the shop's for another.
func foreignTrade(st *catalog.State, r *rand.Rand) {
	var shops []int
	for i := range st.Pieces {
		if st.Pieces[i].InShop {
			shops = append(shops, i)
		}
	}
	if len(shops) < 2 || !jobs.RandomChance(r, 60) {
		return
	}
	give, get := shops[r.IntN(len(shops))], shops[r.IntN(len(shops))]
	if give != get {
		st.Trades = append(st.Trades, catalog.Trade{ID: "foreign", Give: give, Get: get,
			Credit: jobs.RandomFrom[catalog.Cents](r, 10_00, 90_00)})
	}
}

// TestJointBrute: the cheapest plan of two jobs together, and apart, is what trying
// everything gives; nobody pays more than without the other.
func TestJointBrute(t *testing.T) {
	seen := map[string]int{}
	for slots, seeds := range []int64{1: 150, 2: 150, 3: 25} {
		for seed := range seeds {
			t.Run(jobs.RandomName(seed, slots, "pair"), func(t *testing.T) {
				pair := randomPair(seed, slots)
				out, err := Solve(context.Background(), pair, solver.Settings{})
				if err != nil {
					t.Fatal(err)
				}
				want, feasible := oracle.Together(pair, oracle.AllOfShop)
				if out.Has != feasible || out.Has && (out.Status != solver.Optimal || out.Expected != want) {
					t.Fatalf("%s, %d in hand %t; by trying everything %d, %t", out.Status, out.Expected, out.Has, want,
						feasible)
				}
				if !out.Has {
					seen["no plan"]++
					return
				}
				noteJoint(t, seen, out)
				apart, err := program.SolveOnce(context.Background(), NewProgram(pair).Apart().Problem, solver.Change{},
					solver.Settings{})
				if err != nil {
					t.Fatal(err)
				}
				if want, _ := oracle.Together(pair, oracle.Nothing); catalog.Cents(apart.Total) != want {
					t.Errorf("apart %d, by trying everything %d", apart.Total, want)
				}
				if catalog.Cents(apart.Total) < out.Expected {
					t.Errorf("together %d, apart %d", out.Expected, apart.Total)
				}
			})
		}
	}
	for _, what := range []string{"no plan", "saves", "capped apart", "evened", "shared charge", "budget",
		"uneven shares"} {
		if seen[what] < 3 {
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
		alone += job.Alone.Expected
		pays += job.Pays
		if out.Capped == plan.CapAlone && job.Pays > job.Alone.Expected {
			t.Errorf("job %d pays %d, alone %d", j+1, job.Pays, job.Alone.Expected)
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
		if alone >= out.Expected {
			t.Errorf("not capped by %d alone, though it comes to %d", alone, out.Expected)
		}
	case out.Expected < alone:
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

// A plan that is damaged after the fact is found out.
func TestCheckJointDamage(t *testing.T) {
	damages := map[string]func(*plan.Joint) bool{
		"total": func(o *plan.Joint) bool { o.Expected++; return true },
		"bound": func(o *plan.Joint) bool { o.Bound = o.Expected + 1; return true },
		"pays":  func(o *plan.Joint) bool { o.Jobs[0].Pays++; o.Jobs[1].Pays--; return true },
		"evened": func(o *plan.Joint) bool {
			o.Jobs[0].Evened += 5_000_00
			o.Jobs[0].Pays += 5_000_00
			return true
		},
		"lines":        func(o *plan.Joint) bool { o.Jobs[1].Lines++; return true },
		"own plan":     func(o *plan.Joint) bool { o.Jobs[1].Plan.Expected++; return true },
		"charge gone":  func(o *plan.Joint) bool { o.Charges = o.Charges[1:]; return true },
		"charge twice": func(o *plan.Joint) bool { o.Charges = append(o.Charges, o.Charges[0]); return true },
		"charge cents": func(o *plan.Joint) bool { o.Charges[0].Cents++; return true },
		"share": func(o *plan.Joint) bool {
			c := &o.Charges[0]
			c.Shares[0], c.Shares[1] = c.Shares[0]-1, c.Shares[1]+1
			return true
		},
		"share below nothing": func(o *plan.Joint) bool {
			c := &o.Charges[0]
			c.Shares[0], c.Shares[1] = -1, c.Cents+1
			return true
		},
	}
	for name, damage := range damages {
		done := 0
		for seed := range int64(40) {
			out, err := Solve(context.Background(), randomPair(seed, 2), solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			if !out.Has || len(out.Charges) == 0 || !damage(out) {
				continue
			}
			done++
			if len(check.CheckJoint(out)) == 0 {
				t.Errorf("%s, seed %d: not found out", name, seed)
			}
		}
		if done < 5 {
			t.Errorf("%s: only %d cases", name, done)
		}
	}
}

// Both jobs on one piece of the shop's, or one giving away what the other uses.
func TestCheckJointPieces(t *testing.T) {
	found := map[string]int{}
	for seed := range int64(300) {
		pair := randomPair(seed, 2)
		out := &plan.Joint{Has: true, Jobs: make([]plan.JointJob, 2)}
		for j, st := range pair {
			pl, err := program.Solve(context.Background(), st, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			out.Jobs[j] = plan.JointJob{State: st, Plan: pl, Alone: pl}
			out.Has = out.Has && pl.Has
		}
		for _, v := range check.CheckJoint(out) {
			found[v.Rule]++
		}
	}
	for _, rule := range []string{"piece", "trade-once", "trade-give", "charge", "expected"} {
		if found[rule] == 0 {
			t.Errorf("never found: %s; found %v", rule, found)
		}
	}
}

func TestApportion(t *testing.T) {
	for _, c := range []struct {
		cents  catalog.Cents
		weight []catalog.Cents
		want   string
	}{
		{100, []catalog.Cents{1, 1, 1}, "[34 33 33]"},
		{100, []catalog.Cents{1, 0, 1}, "[50 0 50]"},
		{1, []catalog.Cents{1, 1}, "[1 0]"},
		{10, []catalog.Cents{1, 2, 3}, "[2 3 5]"},
		{7, []catalog.Cents{0, 3, 0}, "[0 7 0]"},
		{0, []catalog.Cents{3, 4}, "[0 0]"},
		{1 << 50, []catalog.Cents{1 << 50, 1 << 51}, fmt.Sprint([]catalog.Cents{375299968947541, 750599937895083})},
	} {
		if got := fmt.Sprint(apportion(c.cents, c.weight)); got != c.want {
			t.Errorf("%d by %v: %s, want %s", c.cents, c.weight, got, c.want)
		}
	}
}
