package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// doubtful makes a random job in which much may turn out otherwise: platers send pieces
// back as often as not, some break often, grades are near what is asked for, and pieces
// that are seen together have to match.
func doubtful(seed int64) *catalog.State {
	on := [][]string{{"match-grade"}, {"max-breakage"}, {"completion"}, {"fallback-floor", "floor"}, {"days"}, {"mean"}}
	st := jobs.Random(seed, 2+int(seed%3), jobs.Options{On: append([]string{"quote", "strip"}, on[seed%6]...)})
	for i := range st.Pieces {
		p := &st.Pieces[i]
		for q := range p.Quotes {
			quote := &p.Quotes[q]
			quote.Refused = jobs.Given(catalog.Micro(100_000 * (1 + (int(seed)+i+q)%8)))
			if (int(seed)+i)%2 == 0 {
				quote.Breakage = catalog.Val[catalog.Micro]{}
			}
			if (int(seed)+q)%3 == 0 {
				quote.Firm, quote.Low, quote.High = catalog.Estimate, jobs.Given(quote.Cost/4), jobs.Given(2*quote.Cost)
			}
		}
	}
	for q := range st.Platers {
		st.Platers[q].StripFee /= 4
	}
	return st
}

// TestLowerGradeMayMatch: the rims have to be within 2 points. The left one hangs as it
// is, at 85; the right one at south's, at 88, would be the cheapest, and does not match.
// Were it three points less it would: that is for the better.
func TestLowerGradeMayMatch(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces = []catalog.Piece{jobs.TinyPiece("as-it-is"), jobs.TinyPiece("to-plate"), jobs.TinyPiece("dear")}
	for i := range st.Pieces {
		st.Pieces[i].Fits = []int{jobs.Right}
	}
	st.Pieces[0].Fits, st.Pieces[0].Grade, st.Pieces[0].Metal = []int{jobs.Left}, jobs.Given(catalog.Centi(85_00)),
		catalog.None
	quote := func(cost catalog.Cents, grade catalog.Centi) []catalog.Quote {
		return []catalog.Quote{{ID: "q", Plater: jobs.South, Work: catalog.WorkReplate, Cost: cost, Firm: catalog.Firm,
			Breakage: jobs.Given(catalog.Micro(0)), Refused: jobs.Given(catalog.Micro(0)), Grade: jobs.Given(grade)}}
	}
	st.Platers, st.Pieces[1].Quotes, st.Pieces[2].Quotes = st.Platers[:jobs.South+1], quote(60_00, 88_00),
		quote(200_00, 85_00)
	st.Pieces[1].Quotes[0].Grade, st.Platers[jobs.South].Levels[0].Grade[jobs.Steel] = catalog.Val[catalog.Centi]{},
		jobs.Given(catalog.Centi(88_00))
	st.Pieces[1].Quotes[0].Level = "driver"
	st.Platers[jobs.North].Levels = nil
	st.Matches = []catalog.Match{{ID: "rims", Slots: []int{jobs.Left, jobs.Right},
		GradeWithin: jobs.Given(catalog.Centi(2_00))}}
	plan := solved.Cheapest(t, st)
	if plan.Lines[jobs.Right].Choice.Piece != 2 {
		adapter.LogPlan(t, "plan", st, plan)
		t.Fatal("the plan is another one")
	}
	all, whole, err := InformationValues(context.Background(), plan, solver.Settings{})
	if err != nil || !whole {
		t.Fatal(whole, err)
	}
	for _, o := range all {
		if o.Figure == choice.FigureGrade && o.Piece == 1 && o.Most == 140_00 && o.Gain == 35_00 {
			return
		}
	}
	t.Errorf("that to-plate may come out duller is not told: %+v", all)
}

// TestScreenDropsNothing: every figure worth finding out is told, with what it is worth,
// as if each way of each figure were solved for by itself.
func TestScreenDropsNothing(t *testing.T) {
	jobs, worth, spares, refusals, tried := 0, 0, 0, 0, campaign.Cases(80, 200)
	for seed := range int64(tried) {
		st := doubtful(seed)
		pl := solved.Cheapest(t, st)
		if !pl.Has {
			continue
		}
		jobs++
		// the rest is not screened
		figures := slices.DeleteFunc(uncertainFigures(pl, choice.Choices(st)),
			func(o uncertain) bool { return o.ways[0].choice == nil })
		told, whole, err := informationValues(context.Background(), pl,
			func(*plan.Plan, [][]plan.Choice) []uncertain { return figures }, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		listed := map[InformationValue]catalog.Cents{}
		for _, o := range told {
			gain := o.Gain
			o.Gain, o.AtMost, o.Most = 0, 0, 0
			listed[o] = gain
		}
		for _, o := range figures {
			sum := catalog.Cents(0)
			for i := range o.ways {
				gain, proven, err := gainOf(context.Background(), st, pl, &o.ways[i], solver.Settings{})
				if err != nil || !proven {
					t.Fatal(proven, err)
				}
				if gain > 0 && o.ways[i].worse && !o.Planned {
					t.Errorf("seed %d: %+v, way %d: for the worse, and yet a set gets cheaper by %d", seed,
						o.InformationValue, i, gain)
				}
				sum += catalog.Cents(o.ways[i].likely) * gain
			}
			sum = (sum + catalog.Cents(catalog.One)/2) / catalog.Cents(catalog.One)
			if sum <= o.Fee(st) {
				if listed[o.InformationValue] != 0 {
					t.Errorf("seed %d: %+v is told, and is worth %d", seed, o.InformationValue, sum)
				}
				continue
			}
			worth++
			if !o.Planned {
				spares++
			}
			if len(o.ways) == 4 {
				refusals++
			}
			if listed[o.InformationValue] != sum {
				t.Errorf("seed %d: %+v is worth %d, told %d", seed, o.InformationValue, sum, listed[o.InformationValue])
			}
		}
	}
	t.Logf("%d jobs, %d figures worth finding out, %d of them of spares, %d of pieces that may be sent back", jobs,
		worth, spares, refusals)
	if jobs < tried*2/5 || worth < tried/6 || spares < tried/12 || refusals < tried/15 {
		t.Errorf("%d jobs, %d figures worth finding out, %d of them of spares, %d of pieces that may be sent back",
			jobs, worth, spares, refusals)
	}
}
