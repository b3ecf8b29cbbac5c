package plan_test

import (
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
)

// TestBudgetLeft: the budget is on the outlay or on the total, as the job says, and a plan
// may go beyond it.
func TestBudgetLeft(t *testing.T) {
	for name, c := range map[string]struct {
		on   catalog.BudgetOn
		want catalog.Cents
	}{"outlay": {catalog.OnOutlay, 10_00}, "expected": {catalog.OnExpected, -20_00}} {
		st := &catalog.State{Job: catalog.Job{BudgetOn: c.on, Budget: catalog.Val[catalog.Cents]{V: 100_00, Set: true}}}
		p := &plan.Plan{Of: st, Outlay: 90_00, Expected: 120_00}
		if got := p.BudgetLeft(); got != c.want {
			t.Errorf("budget on %s: %d left, want %d", name, got, c.want)
		}
	}
}

// TestOverBudget: only what a job gives the others can take it beyond its budget, and only
// by what its plan does not leave of it.
func TestOverBudget(t *testing.T) {
	for _, c := range []struct {
		set          bool
		evened, want catalog.Cents
	}{{true, 25_00, 15_00}, {true, 10_00, 0}, {true, -25_00, 0}, {true, 0, 0}, {false, 25_00, 0}} {
		st := &catalog.State{Job: catalog.Job{Budget: catalog.Val[catalog.Cents]{V: 100_00, Set: c.set}}}
		j := plan.JointJob{State: st, Plan: &plan.Plan{Of: st, Outlay: 90_00, Expected: 500_00}, Evened: c.evened}
		if got := j.OverBudget(); got != c.want {
			t.Errorf("%+v: over by %d", c, got)
		}
	}
}

// TestJointSums: what a job saves is counted from its plan alone, or from the one apart
// where not all can have those; what its lines and trades spend leaves the shared charges
// out.
func TestJointSums(t *testing.T) {
	alone := &plan.Plan{Has: true, Expected: 100_00}
	j := plan.JointJob{Alone: alone, Apart: &plan.Plan{Has: true, Expected: 130_00}, Pays: 90_00,
		Plan: &plan.Plan{}}
	for _, c := range []struct {
		capped plan.Cap
		has    bool
		want   catalog.Cents
		known  bool
	}{{plan.CapAlone, true, 10_00, true}, {plan.CapApart, true, 40_00, true}, {plan.CapApart, false, 40_00, true},
		{plan.CapNone, false, 0, false}} {
		alone.Has = c.has
		if got, known := (&plan.Joint{Capped: c.capped}).Saves(&j); got != c.want || known != c.known {
			t.Errorf("%+v: saves %d, known %v", c, got, known)
		}
	}
	// what it keeps more than alone it may pay more
	j.Plan = &plan.Plan{Keeps: 15_00}
	alone.Has, alone.Keeps = true, 5_00
	if got, _ := (&plan.Joint{Capped: plan.CapAlone}).Saves(&j); got != 20_00 {
		t.Errorf("keeping more saves %d", got)
	}
	j.Plan = &plan.Plan{
		Lines: []plan.Line{{Choice: &plan.Choice{Cash: 50_00}}, {Choice: &plan.Choice{Cash: 20_00}}},
		Charges: []plan.Charge{{Kind: plan.ChargeTrade, Cents: -30_00}, {Kind: plan.ChargePlaterFreight, Cents: 8_00},
			{Kind: plan.ChargeBundle, Cents: 9_00}},
	}
	if got := j.OwnOutlay(); got != 40_00 {
		t.Errorf("lines of 70.00 and a credit of 30.00 spend %d", got)
	}
}
