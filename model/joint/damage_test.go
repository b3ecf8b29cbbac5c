package joint

import (
	"context"
	"testing"

	"brightset/model/check"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

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
			if len(check.Joint(out)) == 0 {
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
		for _, v := range check.Joint(out) {
			found[v.Rule]++
		}
	}
	for _, rule := range []string{"piece", "trade-once", "trade-give", "charge", "expected"} {
		if found[rule] == 0 {
			t.Errorf("never found: %s; found %v", rule, found)
		}
	}
}
