package program

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/seeded"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestSeededJobsCanBeMet fills every slot with its own reproduction, as it is.
// That set must meet every rule of every job, so none is infeasible; and a job's
// own figures must be such as a file could hold.
func TestSeededJobsCanBeMet(t *testing.T) {
	for _, f := range seeded.Families {
		for seed := uint64(1); seed <= uint64(campaign.Cases(6, 100)); seed++ {
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
			for _, v := range check.Check(st, plan) {
				t.Errorf("%s, seed %d: %v", f.Name, seed, v)
			}
		}
	}
}

// ownReproductions is the plan that takes the reproduction made for each slot:
// the reproductions come in the order of the slots.
func ownReproductions(st *catalog.State) *plan.Plan {
	pl := &plan.Plan{Of: st, Status: solver.Stopped, Has: true, Completion: 1}
	choices := choice.Choices(st)
	buys := map[int]bool{}
	weights, grades := 0.0, 0.0
	for i := range st.Pieces {
		p, s := &st.Pieces[i], len(pl.Lines)
		if p.Kind != catalog.Reproduction || s == len(st.Slots) {
			continue
		}
		own := slices.DeleteFunc(choices[s],
			func(k plan.Choice) bool { return k.Piece != i || k.Work != catalog.WorkAsIs })
		if len(own) != 1 {
			return pl
		}
		k := &own[0]
		pl.Lines = append(pl.Lines, plan.Line{Slot: s, Choice: k, Expected: k.ExpectedCost})
		pl.Expected += k.ExpectedCost
		pl.Outlay += k.Cash
		weights += float64(st.Slots[s].Weight)
		grades += float64(st.Slots[s].Weight) * float64(k.Grade) / 100
		if p.Vendor != catalog.None {
			buys[p.Vendor] = true
		}
	}
	for v := range st.Vendors {
		if buys[v] {
			fee := st.Vendors[v].Freight
			pl.Charges = append(pl.Charges, plan.Charge{Kind: plan.ChargeVendorFreight, Of: v, Cents: fee})
			pl.Expected += fee
			pl.Outlay += fee
		}
	}
	pl.Bound, pl.Grade = pl.Expected, grades/weights
	return pl
}
