package program

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestSharedSpareDamage damages a plan that shares a spare, or tightens the state under
// it, in one way at a time; each has to be named.
func TestSharedSpareDamage(t *testing.T) {
	damages := []struct {
		rule, name string
		damage     func(st *catalog.State, p *plan.Plan)
	}{
		{"sharing-slot", "with a slot there isn't",
			func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Sharing.With = 7 }},
		{"sharing-slot", "with a negative one",
			func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Sharing.With = catalog.None }},
		{"sharing-slot", "with itself", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Sharing.With = 0 }},
		{"sharing-slot", "with a line that is gone",
			func(_ *catalog.State, p *plan.Plan) { p.Lines = append(p.Lines[:1], p.Lines[2:]...) }},
		{"sharing-other", "the other holds it alone",
			func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Sharing = nil }},
		{"sharing-other", "with a third", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Sharing.With = 2 }},
		{"sharing-other", "three in a ring", func(_ *catalog.State, p *plan.Plan) {
			again := *p.Lines[1].Fallback
			again.Slot = 2
			p.Lines[2].Fallback, p.Lines[2].Sharing = &again, &plan.Sharing{With: 0}
			p.Lines[1].Sharing.With = 2
		}},
		{"sharing-piece", "another piece", func(_ *catalog.State, p *plan.Plan) {
			again := *p.Lines[1].Fallback
			again.Piece = 4
			p.Lines[1].Fallback = &again
		}},
		{"sharing-piece", "none", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Fallback = nil }},
		{"sharing-yields", "both", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Sharing.Yields = true }},
		{"sharing-yields", "neither", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Sharing.Yields = false }},
		{"line-expected", "the other one", func(_ *catalog.State, p *plan.Plan) {
			p.Lines[0].Sharing.Yields, p.Lines[1].Sharing.Yields = true, false
		}},
		{"line-expected", "yielding for nothing",
			func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Expected -= 10_00 }},
		{"expected", "yielding for nothing", func(_ *catalog.State, p *plan.Plan) { p.Expected -= 10_00 }},
		{"expected", "held for itself",
			func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Sharing, p.Lines[1].Sharing = nil, nil }},
		{"piece", "held for each", func(_ *catalog.State, p *plan.Plan) {
			p.Lines[0].Sharing, p.Lines[1].Sharing = nil,
				nil
		}},
		{"piece", "held for a third too", func(_ *catalog.State, p *plan.Plan) {
			again := *p.Lines[1].Fallback
			again.Slot = 2
			p.Lines[2].Fallback = &again
		}},
		{"piece", "two for the left and one for a third, of two", func(st *catalog.State, p *plan.Plan) {
			st.Slots[0].Quantity, st.Pieces[0].Quantity, st.Pieces[2].Quantity = 2, 2, 2
			again := *p.Lines[1].Fallback
			again.Slot = 2
			p.Lines[2].Fallback = &again
		}},
		{"days", "no time for yielding",
			func(st *catalog.State, _ *plan.Plan) { st.Job.WithinDays = jobs.Set(29) }},
		{"figure-completion", "as if each had its own", func(_ *catalog.State, p *plan.Plan) { p.Completion = 0.8 }},
		{"completion", "",
			func(st *catalog.State, _ *plan.Plan) { st.Job.Completion = jobs.Set[catalog.Micro](784_010) }},
		{"certain-failure", "both fail for certain",
			func(st *catalog.State, _ *plan.Plan) { st.Pieces[0].Chance, st.Pieces[1].Chance = 0, 0 }},
		{"budget", "", func(st *catalog.State, p *plan.Plan) {
			st.Job.Budget, st.Job.BudgetOn = jobs.Set(p.Expected-1), catalog.OnExpected
		}},
	}
	for _, d := range damages {
		t.Run(d.rule+" "+d.name, func(t *testing.T) {
			st, plan := oneSparePlan(t)
			d.damage(st, plan)
			if found := check.Check(st, plan); !slices.ContainsFunc(found,
				func(v check.Violation) bool { return v.Rule == d.rule }) {
				t.Errorf("not named, got %v", found)
			}
		})
	}
}

// oneSparePlan is the plan for two rims with one spare, and a third slot with a piece
// of its own that comes in four cases of five, where no spare helps.
func oneSparePlan(t *testing.T) (*catalog.State, *plan.Plan) {
	t.Helper()
	st := oneSpare()
	st.Slots = append(st.Slots,
		catalog.Slot{ID: "tail", Quantity: 1, Weight: 100, Rescue: jobs.Given(catalog.Cents(80_00))})
	third, fourth := st.Pieces[1], st.Pieces[2]
	third.ID, third.Fits = "tl", []int{2}
	fourth.ID, fourth.Price = "dear", 5000_00
	st.Pieces = append(st.Pieces, third, fourth)
	st.Pieces[2].Fits = []int{0, 1, 2}
	two, _ := solveShared(t, st)
	if found := check.Check(st, two); len(found) > 0 || countShared(two) != 2 || !two.Lines[1].Sharing.Yields {
		t.Fatalf("not the plan the damages are made for: %v", found)
	}
	return st, two
}

// TestSharedSpareNeverPanics: whatever a plan says of sharing.
func TestSharedSpareNeverPanics(t *testing.T) {
	for seed := range uint64(500) {
		st, pl := oneSparePlan(t)
		r := rand.New(rand.NewPCG(seed, 9))
		for range 1 + r.IntN(4) {
			l := &pl.Lines[r.IntN(len(pl.Lines))]
			wild := []int{-5, -1, 0, 1, 2, 3, math.MaxInt64, math.MinInt64}[r.IntN(8)]
			switch r.IntN(6) {
			case 0:
				l.Sharing = &plan.Sharing{With: wild, Yields: r.IntN(2) == 0}
			case 1:
				l.Sharing = nil
			case 2:
				l.Fallback = nil
			case 3:
				l.Slot = wild
			case 4:
				pl.Lines = append(pl.Lines, *l)
			case 5:
				l.Choice = pl.Lines[r.IntN(len(pl.Lines))].Choice
			}
		}
		check.Check(st, pl)
	}
}
