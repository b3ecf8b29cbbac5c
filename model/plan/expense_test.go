package plan_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
)

// TestExpenses: every sum goes to its kind, and what is nothing is left out.
func TestExpenses(t *testing.T) {
	p := &plan.Plan{
		Lines: []plan.Line{
			{Choice: &plan.Choice{Plate: 50_00, Before: 11_00, Makers: 7_00, Other: 1_00, Cash: 62_00}, Expected: 65_00},
			{Choice: &plan.Choice{Get: 30_00, Give: 2_00, Cash: 30_00}, Expected: 32_00},
		},
		Charges: []plan.Charge{
			{Kind: plan.ChargeMinimum, Cents: 3_00}, {Kind: plan.ChargePlaterFreight, Cents: 6_00},
			{Kind: plan.ChargeVendorFreight, Cents: 1_00}, {Kind: plan.ChargeBundle, Cents: 20_00},
			{Kind: plan.ChargeTrade, Cents: -5_00},
		},
	}
	want := []plan.Expense{
		{Kind: plan.Plating, Cents: 50_00}, {Kind: plan.OwnBench, Cents: 5_00}, {Kind: plan.Makers, Cents: 7_00},
		{Kind: plan.Purchases, Cents: 30_00}, {Kind: plan.Bundles, Cents: 20_00}, {Kind: plan.Freight, Cents: 7_00},
		{Kind: plan.LeastLots, Cents: 3_00}, {Kind: plan.Foregone, Cents: 2_00}, {Kind: plan.Failures, Cents: 3_00},
		{Kind: plan.TradeCredits, Cents: -5_00},
	}
	if got := plan.Expenses(p); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := plan.Expenses(&plan.Plan{}); len(got) != 0 {
		t.Errorf("nothing planned costs %v", got)
	}
}

// TestExpensesAddUp: whatever a plan spends, the kinds add up to its expected total.
func TestExpensesAddUp(t *testing.T) {
	kinds := []plan.ChargeKind{plan.ChargeMinimum, plan.ChargePlaterFreight, plan.ChargeVendorFreight,
		plan.ChargeBundle, plan.ChargeTrade}
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 1))
		sum := func() catalog.Cents { return catalog.Cents(r.IntN(100_00)) }
		p, total := &plan.Plan{}, catalog.Cents(0)
		for range r.IntN(6) {
			c := &plan.Choice{Plate: sum(), Before: sum(), Other: sum(), Get: sum(), Give: sum()}
			c.Cash = c.Plate + c.Before + c.Other + c.Get
			c.Makers = c.Before / catalog.Cents(1+r.IntN(3))
			l := plan.Line{Choice: c, Expected: c.Cash + c.Give + sum()}
			p.Lines, total = append(p.Lines, l), total+l.Expected
		}
		for range r.IntN(8) {
			c := plan.Charge{Kind: kinds[r.IntN(len(kinds))], Cents: sum() - 50_00}
			p.Charges, total = append(p.Charges, c), total+c.Cents
		}
		got := catalog.Cents(0)
		for _, e := range plan.Expenses(p) {
			got += e.Cents
		}
		if got != total {
			t.Errorf("seed %d: the kinds add up to %d, the plan to %d", seed, got, total)
		}
	}
}
