package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestFindOutStartingValues gives the job itself what a starting value may turn out to
// be, and compares the best set then with the plan carried out regardless.
func TestFindOutStartingValues(t *testing.T) {
	seen := map[choice.Figure]int{}
	worth, seeds := 0, []int64{383, 681} // where what was held for a lead can be traded once it comes
	for seed := range int64(campaign.Cases(80, 1500)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		st := jobs.Random(seed, 3, jobs.Options{})
		lessSure(st, seed)
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		for _, o := range uncertainFigures(plan, choice.Choices(st)) {
			if o.ways[0].state == nil {
				continue
			}
			for _, high := range []bool{false, true} {
				gain, proven, err := gainOf(context.Background(), st, plan, &o.ways[index(high)], solver.Settings{})
				if err != nil || !proven {
					t.Fatal(proven, err)
				}
				moved := st.Clone()
				moveByHand(moved, &o.InformationValue, high)
				now := solved.Cheapest(t, moved)
				seen[o.Figure]++
				if !now.Has {
					continue
				}
				want := byHand(moved, plan) - now.Weighed()
				if o.Figure == FigureLead && !high {
					want = gain // a plan whose lead is sure to fail has no line in the program
				}
				if max(0, want) != gain {
					t.Errorf("seed %d, %s %+v, high %v: worth %d, by hand %d", seed, o.Figure, o.InformationValue, high,
						gain, want)
				}
				if gain > 0 {
					worth++
				}
			}
		}
	}
	for _, f := range []choice.Figure{FigureLead, FigureRescue, FigureHourly, FigureHours, FigureBase} {
		if seen[f] < campaign.Cases(20, 20) {
			t.Errorf("%s looked at %d times only", f, seen[f])
		}
	}
	if worth < campaign.Cases(20, 20) {
		t.Errorf("only %d are worth knowing", worth)
	}
}

// index is the place of the low and the high way.
func index(high bool) int {
	if high {
		return 1
	}
	return 0
}

// lessSure takes rules out that a moved figure could break, and makes a piece a lead.
func lessSure(st *catalog.State, seed int64) {
	st.Job.Budget, st.Job.Completion = catalog.Val[catalog.Cents]{}, catalog.Val[catalog.Micro]{}
	for s := range st.Slots {
		st.Slots[s].MaxBreakage = catalog.Val[catalog.Micro]{}
	}
	if p := &st.Pieces[int(seed)%len(st.Pieces)]; p.Chance == catalog.One {
		p.Chance = catalog.One / 2
	}
}

// moveByHand changes what the tables of a state say.
func moveByHand(st *catalog.State, o *InformationValue, high bool) {
	pick := func(low, up float64) float64 {
		if high {
			return up
		}
		return low
	}
	by := func(v catalog.Micro, f float64) catalog.Micro { return catalog.Micro(float64(v) * f) }
	switch o.Figure {
	case FigureLead:
		st.Pieces[o.Piece].Chance = catalog.Micro(pick(0, 1) * float64(catalog.One))
	case FigureRescue:
		for s := range st.Slots {
			if r := &st.Slots[s].Rescue; r.From.Source == catalog.StartingValue {
				r.V = catalog.Cents(float64(r.V) * pick(0.5, 1.5))
			}
		}
	case FigureHourly:
		st.Shop.Hourly.V = catalog.Cents(float64(st.Shop.Hourly.V) * pick(0.75, 1.25))
	case FigureHours:
		w := &st.Tables.Works[o.Work]
		for _, v := range []*catalog.Val[catalog.Micro]{&w.Hours, &w.Each, &w.PerArea} {
			if v.From.Source == catalog.StartingValue {
				v.V = by(v.V, pick(0.5, 1.5))
			}
		}
	case FigureBase:
		b := &st.Tables.Metals[o.Metal].Base
		b.V = min(by(b.V, pick(0.5, 2)), catalog.One)
		for w := range st.Tables.Works {
			list := st.Tables.Works[w].Breakage
			if o.Metal >= len(list) {
				continue
			}
			if b := &list[o.Metal]; b.Set && b.From.Source == catalog.StartingValue {
				b.V = min(by(b.V, pick(0.5, 2)), catalog.One)
			}
		}
	}
}
