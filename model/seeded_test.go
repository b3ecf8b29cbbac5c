package model

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/seeded"
	"brightset/solver"
)

// TestSeededJobsCanBeMet fills every slot with its own reproduction, as it is.
// That set must meet every rule of every job, so none is infeasible; and a job's
// own figures must be such as a file could hold.
func TestSeededJobsCanBeMet(t *testing.T) {
	for _, f := range seeded.Families {
		for seed := uint64(1); seed <= 10; seed++ {
			st := seeded.Job(f, seed)
			if f.Budget > 0 != st.Job.Budget.Set {
				t.Errorf("%s, seed %d: budget %v", f.Name, seed, st.Job.Budget)
			}
			for _, trade := range st.Trades {
				if give := &st.Pieces[trade.Give]; give.Side != catalog.Customers || give.Bundle != catalog.None {
					t.Errorf("%s, seed %d: trade %s gives what has to be bought first", f.Name, seed, trade.ID)
				}
			}
			plan := ownReproductions(st)
			if len(plan.Lines) != f.Slots {
				t.Errorf("%s, seed %d: %d slots have a reproduction of their own", f.Name, seed, len(plan.Lines))
				continue
			}
			for _, v := range Check(st, plan) {
				t.Errorf("%s, seed %d: %v", f.Name, seed, v)
			}
		}
	}
}

// ownReproductions is the plan that takes the reproduction made for each slot:
// the reproductions come in the order of the slots.
func ownReproductions(st *catalog.State) *Plan {
	plan := &Plan{Status: solver.Stopped, Has: true, Completion: 1}
	choices := Choices(st)
	buys := map[int]bool{}
	weights, grades := 0.0, 0.0
	for i := range st.Pieces {
		p, s := &st.Pieces[i], len(plan.Lines)
		if p.Kind != catalog.Reproduction || s == len(st.Slots) {
			continue
		}
		own := slices.DeleteFunc(choices[s], func(k Choice) bool { return k.Piece != i || k.Work != catalog.WorkAsIs })
		if len(own) != 1 {
			return plan
		}
		k := &own[0]
		plan.Lines = append(plan.Lines, Line{Slot: s, Choice: k, Expected: k.Paid})
		plan.Expected += k.Paid
		plan.Outlay += k.Cash
		weights += float64(st.Slots[s].Weight)
		grades += float64(st.Slots[s].Weight) * float64(k.Grade) / 100
		if p.Vendor != catalog.None {
			buys[p.Vendor] = true
		}
	}
	for v := range st.Vendors {
		if buys[v] {
			fee := st.Vendors[v].Freight
			plan.Charges = append(plan.Charges, Charge{Kind: ChargeVendorFreight, Of: v, Cents: fee})
			plan.Expected += fee
			plan.Outlay += fee
		}
	}
	plan.Bound, plan.Grade = plan.Expected, grades/weights
	return plan
}
