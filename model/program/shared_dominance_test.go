package program

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/model/sharedspare"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestSharedSpareLinesLeftOut: the program with every line, the one without the needless
// ones and the search that begins with rough cells come to the same total; each again
// asked for just the chance that comes of it, and with just the days there are.
func TestSharedSpareLinesLeftOut(t *testing.T) {
	for seed := range int64(campaign.Cases(40, 80)) {
		slots := 3 + int(seed%2)
		st := scarceState(5000+seed, slots)
		plan := sameTotals(t, st, jobs.CaseName(5000+seed, slots, "first"))
		if !plan.Has || countShared(plan) == 0 {
			continue
		}
		last := choice.LastDay(st, plan)
		st.Job.Completion = jobs.Set(catalog.Micro(plan.Completion * 1e6))
		sameTotals(t, st, jobs.CaseName(5000+seed, slots, "chance"))
		st.Job.Completion = jobs.Set(catalog.Micro(plan.Completion*1e6) + 2000)
		sameTotals(t, st, jobs.CaseName(5000+seed, slots, "more"))
		for _, days := range []int{last, last - 1} {
			st.Job.Completion, st.Job.WithinDays = catalog.Val[catalog.Micro]{}, jobs.Set(days)
			sameTotals(t, st, jobs.CaseName(5000+seed, slots, "days"))
		}
	}
}

func sameTotals(t *testing.T, st *catalog.State, name string) *plan.Plan {
	t.Helper()
	all, err := Compile(st, Options{SharedSpares: true, AllLines: true}).Solve(context.Background(), solver.Change{},
		solver.Settings{})
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	few, err := cheapestShared(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	rough, _, err := sharedSpares(context.Background(), st, solver.Settings{}, 1)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	for _, plan := range []*plan.Plan{few, rough} {
		if plan.Has != all.Has || plan.Weighed() != all.Weighed() {
			t.Errorf("%s: in hand %t, total %d, with all lines %t, %d", name, plan.Has, plan.Weighed(), all.Has,
				all.Expected)
		}
	}
	return all
}

// TestSharedSpareBag: two that share a bag take as many of it as the one that needs more,
// so that nothing of two is left for a third.
func TestSharedSpareBag(t *testing.T) {
	st := oneSpare()
	st.Slots[0].Quantity, st.Pieces[0].Quantity, st.Pieces[2].Quantity = 2, 2, 2
	st.Slots = append(st.Slots, catalog.Slot{ID: "tail", Quantity: 1, Rescue: jobs.Given(catalog.Cents(600_00))})
	third := st.Pieces[1]
	third.ID, third.Fits = "tl", []int{2}
	st.Pieces = append(st.Pieces, third)
	st.Pieces[2].Fits = []int{0, 1, 2}
	two, _ := solveShared(t, st)
	// 0.1 x 600, and one each for the other two: 2 x 0.2 x 100
	if two.Weighed() != 100_00 || countShared(two) != 0 {
		t.Errorf("total %d, %d lines share", two.Weighed(), countShared(two))
	}
}

// TestSharedSpareReplaces: a line that makes another needless costs no more with any of
// the other slot's, to the cent, is no riskier and may share wherever that one may.
func TestSharedSpareReplaces(t *testing.T) {
	st := oneSpare()
	j := newDominance(st, 0, wants{shared: make([]bool, 3), got: make([]bool, 3)}, Options{}, newSteady(st))
	r := rand.New(rand.NewPCG(3, 4))
	some := func(own catalog.Cents) shareClass {
		return shareClass{Sharer: sharedspare.Sharer{Fails: 1 + catalog.Micro(r.IntN(1000))*1000,
			Spare:        catalog.Micro(r.IntN(4)) * 300_000,
			FallbackCost: catalog.Cents(r.IntN(2000)), Rescue: own, MayWait: r.IntN(3) > 0}}
	}
	did := 0
	for range 60_000 {
		own := catalog.Cents(r.IntN(2000))
		sp := spare{class: [2][]shareClass{{some(own), some(own)}, {some(700), some(700)}}}
		if r.IntN(3) == 0 {
			sp.class[0][1].Fails = sp.class[0][0].Fails
		}
		none := [2]int{catalog.None, catalog.None}
		rank := func(class int, cost catalog.Cents) *ranking {
			return &ranking{figures{cost: cost, loss: sp.class[0][class].Loss()},
				sig{shared: none, bundles: none, plater: catalog.None, vendor: catalog.None, got: catalog.None}, class,
				Pair{}}
		}
		a := rank(0, catalog.Cents(1000+r.IntN(100)))
		b := rank(1, a.cost+catalog.Cents(r.IntN(300)))
		o := sp.worst(1)
		for _, x := range sp.class[1] {
			pair, ok := sharedspare.PairUp(sp.class[0][0].Sharer, x.Sharer)
			if saved := -pair.Cost; ok && saved > o.saves(&sp.class[0][0]) {
				t.Fatalf("saves %d, at most %d", saved, o.saves(&sp.class[0][0]))
			}
		}
		if !sp.replaces(j, 0, a, b, o) {
			continue
		}
		did++
		for _, x := range sp.class[1] {
			for later := range 2 {
				first, okA := sharedspare.PairUp(sp.class[0][0].Sharer, x.Sharer)
				second, okB := sharedspare.PairUp(sp.class[0][1].Sharer, x.Sharer)
				if later == 1 {
					first, okA = sharedspare.PairUp(x.Sharer, sp.class[0][0].Sharer)
					second, okB = sharedspare.PairUp(x.Sharer, sp.class[0][1].Sharer)
				}
				if okB && (!okA || a.cost+first.Cost > b.cost+second.Cost || first.Both > second.Both) {
					t.Fatalf("%+v at %d for %+v at %d, with %+v", sp.class[0][0].Sharer, a.cost, sp.class[0][1].Sharer,
						b.cost, x.Sharer)
				}
			}
		}
	}
	if did < 500 {
		t.Errorf("only %d", did)
	}
}
