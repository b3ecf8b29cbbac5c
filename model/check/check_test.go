package check

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// soundPlan gives the job of the tests and its cheapest plan.
func soundPlan(t *testing.T) (*catalog.State, *plan.Plan) {
	t.Helper()
	st := jobs.SmallJob()
	_, ok, plan := adapter.Cheapest(st)
	if !ok {
		t.Fatal("the job of the tests has no plan")
	}
	return st, plan
}

// TestCheckGood: a sound plan passes, and holds what the damages below damage.
func TestCheckGood(t *testing.T) {
	st, pl := soundPlan(t)
	for _, v := range Check(st, pl) {
		t.Error(v)
	}
	if !pl.Lines[0].Choice.Plated() || pl.Lines[0].Fallback == nil || !pl.Lines[1].Choice.Plated() ||
		pl.Lines[2].Choice.Plated() {
		t.Error("the plan isn't the one the damages are made for")
	}
	for _, kind := range []plan.ChargeKind{plan.ChargeMinimum, plan.ChargePlaterFreight, plan.ChargeVendorFreight,
		plan.ChargeBundle, plan.ChargeTrade} {
		if chargeOf(pl, kind) == nil {
			t.Errorf("the plan has no charge of kind %q", kind)
		}
	}
}

func chargeOf(p *plan.Plan, kind plan.ChargeKind) *plan.Charge {
	for i := range p.Charges {
		if p.Charges[i].Kind == kind {
			return &p.Charges[i]
		}
	}
	return nil
}

// TestCheckNothing: plans that hold nothing.
func TestCheckNothing(t *testing.T) {
	st := jobs.SmallJob()
	tests := []struct {
		name string
		st   *catalog.State
		plan *plan.Plan
		want string
	}{
		{"no state", nil, &plan.Plan{}, "plan"},
		{"no plan", st, nil, "plan"},
		{"optimal without lines", st, &plan.Plan{Of: st, Status: solver.Optimal}, "status"},
		{"infeasible", st, &plan.Plan{Of: st, Status: solver.Infeasible}, ""},
		{"stopped with nothing in hand", st, &plan.Plan{Of: st, Status: solver.Stopped}, ""},
		{"infeasible with lines", st, &plan.Plan{Of: st, Status: solver.Infeasible, Has: true}, "status"},
		{"lines missing", st, &plan.Plan{Of: st, Has: true}, "line-missing"},
	}
	for _, test := range tests {
		found := Check(test.st, test.plan)
		if test.want == "" && len(found) > 0 || test.want != "" && !names(found, test.want) {
			t.Errorf("%s: got %v, want %q", test.name, found, test.want)
		}
	}
}

func names(found []Violation, rule string) bool {
	return slices.ContainsFunc(found, func(v Violation) bool { return v.Rule == rule })
}

// TestCheckDamage damages the good plan, or tightens the state under it, in
// one way at a time; each has to be named.
func TestCheckDamage(t *testing.T) {
	for _, d := range damages {
		t.Run(d.Rule+" "+d.Name, func(t *testing.T) {
			st, plan := soundPlan(t)
			d.Damage(st, plan)
			if found := Check(st, plan); !names(found, d.Rule) {
				t.Errorf("not named, got %v", found)
			}
		})
	}
}

// TestCheckOtherState: a plan is judged by the state whose slots and pieces it means, whatever
// it says itself of its figures; where its numbers mean others, that is named.
func TestCheckOtherState(t *testing.T) {
	tests := []struct {
		name   string
		change func(st *catalog.State)
		want   string
	}{
		{"the same names", func(st *catalog.State) { st.Job.Budget.V += 100 }, ""},
		{"pieces in another order", func(st *catalog.State) { st.Pieces[0], st.Pieces[1] = st.Pieces[1], st.Pieces[0] },
			"state"},
		{"a slot more", func(st *catalog.State) { st.Slots = append(st.Slots, st.Slots[0]) }, "state"},
		{"another plater", func(st *catalog.State) { st.Platers[0].ID += "-2" }, "state"},
	}
	for _, test := range tests {
		st, plan := soundPlan(t)
		of := st.Clone()
		test.change(of)
		plan.Of = of
		if found := Check(st, plan); names(found, "state") != (test.want != "") {
			t.Errorf("%s: got %v, want %q", test.name, found, test.want)
		}
	}
	st, plan := soundPlan(t)
	if plan.Of = nil; !names(Check(st, plan), "state") {
		t.Error("a plan of no state passes")
	}
}

// TestCheckStopped: a plan in hand that isn't proven may have a lower bound.
func TestCheckStopped(t *testing.T) {
	st, plan := soundPlan(t)
	plan.Status, plan.Bound = solver.Stopped, plan.Expected-1
	for _, v := range Check(st, plan) {
		t.Error(v)
	}
}

// TestCheckNeverPanics throws wild numbers at every field of a plan.
func TestCheckNeverPanics(t *testing.T) {
	for seed := range uint64(campaign.Cases(500, 10_000)) {
		st, pl := jobs.SmallJob(), (*plan.Plan)(nil)
		if seed%50 == 0 {
			pl = &plan.Plan{Of: st, Has: true, Lines: make([]plan.Line, 3), Charges: make([]plan.Charge, 2)}
		} else {
			_, _, pl = adapter.Cheapest(st)
		}
		r := rand.New(rand.NewPCG(seed, 7))
		for range 1 + r.IntN(3) {
			wreck(pl, r)
		}
		for _, v := range Check(st, pl) {
			if v.Rule == "" || v.Where == "" || v.Message == "" {
				t.Fatalf("seed %d: a violation without words: %+v", seed, v)
			}
		}
	}
}

// wreck sets one field of a plan to a wild value.
func wreck(p *plan.Plan, r *rand.Rand) {
	wild := []int{-5, -1, 0, 1, 3, 99, 1 << 40, math.MaxInt64, math.MinInt64}[r.IntN(9)]
	line := &p.Lines[r.IntN(len(p.Lines))]
	charge := &p.Charges[r.IntN(len(p.Charges))]
	c := line.Choice
	if line.Fallback != nil && r.IntN(2) == 0 {
		c = line.Fallback
	}
	if c == nil {
		c = &plan.Choice{}
	}
	fields := []func(){
		func() { line.Slot = wild }, func() { line.Choice = nil }, func() { line.Fallback = &plan.Choice{Slot: wild} },
		func() { line.Expected = catalog.Cents(wild) }, func() { charge.Of = wild },
		func() { charge.Kind = plan.ChargeTrade },
		func() { charge.Kind = "ransom" }, func() { charge.Cents = catalog.Cents(wild) },
		func() { p.Expected = catalog.Cents(wild) },
		func() { p.Bound = catalog.Cents(wild) }, func() { p.Grade = math.NaN() },
		func() { p.Completion = math.Inf(1) },
		func() { c.Slot = wild }, func() { c.Piece = wild }, func() { c.Plater = wild }, func() { c.Quote = wild },
		func() { c.Level = "?" },
		func() { c.Work = "?" }, func() { c.Grade = catalog.Centi(wild) }, func() { c.Fails = catalog.Micro(wild) },
		func() { c.Chance = catalog.Micro(wild) }, func() { c.ExpectedCost = catalog.Cents(wild) },
		func() { c.Days = wild },
	}
	fields[r.IntN(len(fields))]()
}
