package program

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/internal/oracle"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// triedShared gives a cheapest plan in which two slots may hold one spare, by trying
// all.
func triedShared(st *catalog.State) (*plan.Plan, bool) {
	s := oracle.NewShared(st)
	if !s.Has {
		return nil, false
	}
	p := adapter.FromOracle(st, s.Reader, s.Lines, s.Trades)
	for i := range p.Lines {
		if s.With[i] >= 0 {
			p.Lines[i].Sharing = &plan.Sharing{With: s.With[i], Yields: s.Yields[i]}
			p.Lines[i].Expected += s.More[i]
			p.Expected += s.More[i]
			p.Lines[i].Keeps -= s.Less[i]
			p.Keeps -= s.Less[i]
		}
	}
	p.Completion, p.Bound = oracle.SharedCompletion(s.Lines, s.With), p.Expected
	return p, true
}

// TestSharedSpareRandom compares random jobs with the exhaustive search.
func TestSharedSpareRandom(t *testing.T) {
	all, shared, cheaper, only := 0, 0, 0, 0
	for slots := 2; slots <= 4; slots++ {
		for seed := range int64(campaign.Cases(66-12*slots, 1300-250*slots)) {
			t.Run(jobs.CaseName(seed, slots, "one-for-two"), func(t *testing.T) {
				st := scarceState(seed, slots)
				plan, saved, new := compareShared(t, st)
				all++
				if new {
					only++
				}
				if saved {
					cheaper++
				}
				if !plan.Has || countShared(plan) == 0 {
					return
				}
				shared++
				// asked for just what sharing gives, or just what it costs
				st.Job.Completion = jobs.Set(catalog.Micro(plan.Completion * 1e6))
				if _, _, new := compareShared(t, st); new {
					only++
				}
				st.Job.Completion = catalog.Val[catalog.Micro]{}
				st.Job.Budget, st.Job.BudgetOn = jobs.Set(plan.Expected), catalog.OnExpected
				if _, _, new := compareShared(t, st); new {
					only++
				}
			})
		}
	}
	t.Logf("of %d jobs %d share a spare, %d are cheaper by it; %d tasks are possible only so", all, shared, cheaper,
		only)
	if few := campaign.Cases(10, 100); shared < few || cheaper < few || only < 1 {
		t.Errorf("too few: %d share, %d are cheaper, %d possible only so", shared, cheaper, only)
	}
}

// scarceState is a random job in which choices fail more often, pieces fit more slots
// and rescues are dear or cheap, so that spares are worth sharing.
func scarceState(seed int64, slots int) *catalog.State {
	opt := jobs.Options{On: []string{"shared"}}
	if seed%2 == 0 {
		opt.On = append(opt.On, "completion")
	}
	st := jobs.Random(seed, slots, opt)
	r := rand.New(rand.NewPCG(uint64(seed), 42))
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if s := r.IntN(slots); jobs.Chance(r, 50) && p.Fit == nil && !slices.Contains(p.Fits, s) {
			p.Fits = append(p.Fits, s)
		}
		if jobs.Chance(r, 60) {
			p.Chance = jobs.Between[catalog.Micro](r, 500_000, 999_999)
		}
	}
	for s := range st.Slots {
		if jobs.Chance(r, 60) {
			st.Slots[s].Rescue = jobs.Set(jobs.Between[catalog.Cents](r, 50_00, 2500_00))
		}
	}
	if st.Job.Completion.Set {
		st.Job.Completion.V = jobs.Between[catalog.Micro](r, 300_000, 950_000)
	}
	return st
}

func countShared(p *plan.Plan) int {
	n := 0
	for _, l := range p.Lines {
		if l.Sharing != nil {
			n++
		}
	}
	return n
}

// compareShared demands the answer of the exhaustive search, with every line in and
// without the needless ones, and says whether sharing saves anything and whether it
// alone makes a plan possible.
func compareShared(t *testing.T, st *catalog.State) (plan *plan.Plan, saved, only bool) {
	t.Helper()
	best, feasible := triedShared(st)
	if feasible {
		for _, v := range check.Check(st, best) {
			t.Errorf("exhaustive: %v", v)
		}
	}
	for _, opt := range []Options{{SharedSpares: true, AllLines: true}, {SharedSpares: true, FixedLimits: true}} {
		var err error
		if plan, err = Compile(st, opt).Solve(context.Background(), solver.Change{}, solver.Settings{}); err != nil {
			t.Fatalf("solve: %v", err)
		}
		if plan.Has != feasible {
			t.Fatalf("in hand %t, want %t", plan.Has, feasible)
		}
		if feasible && plan.Weighed() != best.Weighed() {
			t.Errorf("all lines %t: total %d, want %d", opt.AllLines, plan.Weighed(), best.Weighed())
			adapter.LogPlan(t, "solve", st, plan)
			adapter.LogPlan(t, "exhaustive", st, best)
		}
	}
	single := compareRoughCells(t, st, best)
	if single.Has && (!feasible || single.Weighed() < best.Weighed()) {
		t.Errorf("holding spares for one slot costs %d, holding them for two more", single.Weighed())
	}
	return plan, single.Has && feasible && best.Weighed() < single.Weighed(), feasible && !single.Has
}

// compareRoughCells demands the same of the search that begins with all classes of a
// side in one cell, and gives the plan that holds every spare for one slot.
func compareRoughCells(t *testing.T, st *catalog.State, best *plan.Plan) *plan.Plan {
	t.Helper()
	two, one, err := sharedSpares(context.Background(), st, solver.Settings{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if two.Has != (best != nil) || two.Has && (two.Weighed() != best.Weighed() || two.Status != solver.Optimal) {
		t.Errorf("rough cells: %s, in hand %t, total %d", two.Status, two.Has, two.Weighed())
	}
	for _, v := range check.Check(st, two) {
		t.Error(v)
	}
	return one
}
