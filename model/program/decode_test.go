package program_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// planOf makes the plan that picks the named columns, with the charges given.
func planOf(t *testing.T, p *program.Program, charges map[int]int64, names ...string) *plan.Plan {
	t.Helper()
	res := solver.Result{Has: true, On: make([]bool, len(p.Problem.Switches)),
		Charge: make([]int64, len(p.Problem.Switches))}
	for s, name := range names {
		at := -1
		for i, c := range p.Problem.Groups[s].Columns {
			if c.Name == name {
				at = i
			}
		}
		if at < 0 {
			t.Fatalf("no column %q", name)
		}
		res.Pick = append(res.Pick, at)
	}
	for sw, cents := range charges {
		res.On[sw], res.Charge[sw] = true, cents
	}
	return p.Plan(res)
}

// TestPlanNotFound: where time was up before a set was found, what none is below is told all the
// same; it is below zero where much may be kept.
func TestPlanNotFound(t *testing.T) {
	p := program.BuildAll(jobs.BusyState())
	if got := p.Plan(solver.Result{Status: solver.Stopped, Bound: -400}).Bound; got != -400 {
		t.Errorf("no set is below -400, but %d is told", got)
	}
}

// bare goes to north at driver: least 50.00, breaks 1.2 x 0.01 = 0.012, E with
// bagged in reserve 50.00 + 0.012 x 0; north's minimum is 80.00, so 30.00 short,
// and his freight 30.00. sold 100.00, its vendor 15.00 once for it and the crate;
// the crate 60.00; the trade brings 30.00.
func TestPlan(t *testing.T) {
	st := jobs.BusyState()
	st.Platers[jobs.North].Minimum = 80_00
	p := program.BuildAll(st)
	charges := map[int]int64{p.PlaterSwitch(jobs.North): 60_00, p.VendorSwitch(0): 15_00, p.BundleSwitch(0): 60_00,
		p.TradeSwitch(0): -30_00}
	plan := planOf(t, p, charges, "bare replate north driver / bagged as-is", "sold as-is")
	want := "[{plater-freight 0 3000} {minimum 0 3000} {vendor-freight 0 1500} {bundle 0 6000} {trade 0 -3000}]"
	if got := fmt.Sprint(plan.Charges); got != want {
		t.Errorf("charges\n%s\nwant\n%s", got, want)
	}
	if plan.Expected != 255_00 || plan.Outlay != 255_00 {
		t.Errorf("expected %d outlay %d", plan.Expected, plan.Outlay)
	}
	if plan.Lines[jobs.Left].Fallback == nil || plan.Lines[jobs.Right].Fallback != nil ||
		plan.Lines[jobs.Left].Expected != 50_00 {
		t.Errorf("lines %+v", plan.Lines)
	}
	// 75 x 3 and 88 x 1; bagged can't fail
	if math.Abs(plan.Grade-78.25) > 1e-9 || plan.Completion != 1 {
		t.Errorf("grade %g completion %g", plan.Grade, plan.Completion)
	}
	// the match of the rims: grade 80 is not within 5 of 88
	if len(plan.Warnings) != 1 || !strings.Contains(plan.Warnings[0],
		`breaks match "rims": its grade is not that of rim-right`) {
		t.Errorf("warnings %q", plan.Warnings)
	}
}

// 0.012 x 0.01 fails on the left, 0.01 on the right.
func TestCompletion(t *testing.T) {
	p := program.BuildAll(jobs.Tiny())
	plan := planOf(t, p, nil, "bare replate north driver / other replate south show", "hazy replate south show")
	if want := (1 - 0.012*0.01) * 0.99; math.Abs(plan.Completion-want) > 1e-12 {
		t.Errorf("completion %g, want %g", plan.Completion, want)
	}
}

func TestBooks(t *testing.T) {
	st := jobs.BusyState()
	st.Platers[jobs.North].Minimum = 80_00
	p := program.BuildAll(st)
	charges := map[int]int64{p.PlaterSwitch(jobs.North): 60_00, p.VendorSwitch(0): 15_00, p.BundleSwitch(0): 60_00,
		p.TradeSwitch(0): -30_00}
	plan := planOf(t, p, charges, "bare replate north driver / bagged as-is", "sold as-is")

	lots := paper.Lots(plan)
	if want := "[{0 [0] 1 5000 8000 3000 3000 11000 40}]"; fmt.Sprint(lots) != want {
		t.Errorf("lots %v, want %s", lots, want)
	}
	if want := "[{2 0 [1] [0] 10000 6000 1500 17500}]"; fmt.Sprint(paper.Purchases(plan)) != want {
		t.Errorf("purchases %v, want %s", paper.Purchases(plan), want)
	}
	var left []string
	for _, s := range paper.Leftover(plan) {
		left = append(left, st.Pieces[s.Piece].ID+": "+s.Advice)
	}
	keep := "keep until the set hangs: a junk piece serves as a pattern; then back to the customer"
	want := "hazy: " + keep + "\ntwisted: " + keep + "\nother: goes out in trade swap\nlonely: " + keep
	if got := strings.Join(left, "\n"); got != want {
		t.Errorf("left over:\n%s\nwant:\n%s", got, want)
	}
}

// Slots that nothing fills are told apart from a set that can't be had together.
func TestUnfilled(t *testing.T) {
	st := program.SlimState()
	st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(95_00))
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || plan.Has || plan.Status != solver.Infeasible {
		t.Fatalf("plan %+v, error %v", plan, err)
	}
	text := strings.Join(plan.Reasons, "\n")
	for _, want := range []string{"rim-left: nothing that fits it will do; it takes grade 95 or better",
		"reaches grade 90 (grade 90 is below the floor of 95)"} {
		if !strings.Contains(text, want) {
			t.Errorf("reasons lack %q:\n%s", want, text)
		}
	}
	st.Pieces = nil
	if plan, _ = program.Solve(context.Background(), st, solver.Settings{}); len(plan.Reasons) != 1 ||
		plan.Reasons[0] != "rim-left: no piece fits it; it takes grade 95 or better" {
		t.Errorf("reasons %q", plan.Reasons)
	}
}
