package check_test

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// asIsOf is a choice that hangs a piece as it is, with figures of no account.
func asIsOf(slot, piece int) *plan.Choice {
	return &plan.Choice{Slot: slot, Piece: piece, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None,
		Chance: catalog.One, Grade: 90_00}
}

// stageDamages are the ways to forget how far pieces have come. Line 0 is at a plater's
// with a fallback, line 1 too, line 3 hangs.
var stageDamages = []check.Damage{
	{Rule: "gone", Name: "broken",
		Damage: func(st *catalog.State, _ *plan.Plan) { st.Pieces[0].Stage = catalog.StageBroken }},
	{Rule: "gone", Name: "lost, and held in reserve", Damage: func(st *catalog.State, p *plan.Plan) {
		st.Pieces[p.Lines[0].Fallback.Piece].Stage = catalog.StageLost
	}},
	{Rule: "gone", Name: "sold", Damage: func(st *catalog.State, p *plan.Plan) {
		st.Pieces[p.Lines[4].Choice.Piece].Stage = catalog.StageSold
	}},
	{Rule: "gone", Name: "on another job",
		Damage: func(st *catalog.State, _ *plan.Plan) { st.Pieces[5].Elsewhere = true }},
	{Rule: "sent", Name: "another plater",
		Damage: func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Plater = 1 }},
	{Rule: "sent", Name: "another work",
		Damage: func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Work = catalog.WorkReplate }},
	{Rule: "sent", Name: "another level",
		Damage: func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Level = "driver" }},
	{Rule: "sent", Name: "another price", Damage: func(st *catalog.State, p *plan.Plan) {
		st.Pieces[1].Quotes = []catalog.Quote{{ID: "q", Plater: 0, Cost: 1, Work: catalog.WorkReplate, Level: "driver"}}
		p.Lines[1].Choice.Quote = 0
	}},
	{Rule: "sent", Name: "not stripped yet, as it is", Damage: func(st *catalog.State, p *plan.Plan) {
		st.Pieces[0].Stage = catalog.StageSeen
		p.Lines[0].Choice = asIsOf(0, 0)
	}},
	{Rule: "stripped", Name: "as it is",
		Damage: func(_ *catalog.State, p *plan.Plan) { p.Lines[2].Choice = asIsOf(2, 4) }},
	{Rule: "stripped", Name: "as it is, at the plater's",
		Damage: func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice = asIsOf(0, 0) }},
	{Rule: "stripped", Name: "cleaned", Damage: func(_ *catalog.State, p *plan.Plan) {
		p.Lines[2].Choice = asIsOf(2, 4)
		p.Lines[2].Choice.Work = catalog.WorkClean
	}},
	{Rule: "hung", Name: "another hangs there",
		Damage: func(_ *catalog.State, p *plan.Plan) { p.Lines[3].Choice = asIsOf(3, 8) }},
	{Rule: "hung", Name: "it hangs elsewhere", Damage: func(st *catalog.State, p *plan.Plan) {
		c := p.Lines[4].Choice
		st.Pieces[c.Piece].Stage, st.Pieces[c.Piece].HungIn = catalog.StageHung, 2
	}},
	{Rule: "hung", Name: "plated where it hangs", Damage: func(_ *catalog.State, p *plan.Plan) {
		p.Lines[3].Choice.Work, p.Lines[3].Choice.Plater, p.Lines[3].Choice.Level = catalog.WorkReplate, 0, "show"
	}},
	{Rule: "charge", Name: "freight of a sent lot", Damage: func(_ *catalog.State, p *plan.Plan) {
		p.Charges = append(p.Charges, plan.Charge{Kind: plan.ChargePlaterFreight, Of: 0, Cents: 25_00})
	}},
	{Rule: "charge", Name: "least charge of a sent lot", Damage: func(_ *catalog.State, p *plan.Plan) {
		p.Charges = append(p.Charges, plan.Charge{Kind: plan.ChargeMinimum, Of: 0, Cents: 205_00})
	}},
	{Rule: "figure-plate", Name: "approved, and paid for again",
		Damage: func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Plate = 180_00 }},
	{Rule: "figure-plate", Name: "at the old price",
		Damage: func(st *catalog.State, _ *plan.Plan) { st.Pieces[1].Sent.Cost += 10_00 }},
	{Rule: "figure-breakage", Name: "plated, and can't break any more",
		Damage: func(st *catalog.State, _ *plan.Plan) { st.Pieces[0].Stage = catalog.StagePlated }},
	{Rule: "figure-refused", Name: "plated, and kept",
		Damage: func(st *catalog.State, _ *plan.Plan) { st.Pieces[0].Stage = catalog.StagePlated }},
	{Rule: "figure-days", Name: "days gone by",
		Damage: func(st *catalog.State, _ *plan.Plan) { st.Pieces[0].Sent.Since++ }},
	{Rule: "days", Name: "off by one", Damage: func(st *catalog.State, p *plan.Plan) {
		st.Job.WithinDays = jobs.Set(12 + p.Lines[0].Choice.Days + p.Lines[0].Fallback.Days - 1)
	}},
	{Rule: "days", Name: "the days gone by forgotten", Damage: func(st *catalog.State, p *plan.Plan) {
		st.Job.WithinDays = jobs.Set(p.Lines[0].Choice.Days + p.Lines[0].Fallback.Days)
	}},
	{Rule: "line-expected", Name: "a fallback at a plater's pays no lot",
		Damage: func(st *catalog.State, p *plan.Plan) {
			f := p.Lines[0].Fallback
			st.Pieces[f.Piece].Sent = catalog.Sent{Was: true, Quote: catalog.Quote{Plater: 1, Work: catalog.WorkReplate,
				Cost: 10_00, Grade: jobs.Set[catalog.Centi](90_00)}}
			again, _, _ := check.Derive(st,
				&plan.Choice{Slot: 0, Piece: f.Piece, Work: catalog.WorkReplate, Plater: 1, Quote: catalog.None})
			p.Lines[0].Fallback = again
			p.Lines[0].Expected = check.Expected(st, p.Lines[0].Choice, again) +
				catalog.Of(p.Lines[0].Choice.Fails, catalog.Cents(30_00))
		}},
	{Rule: "lock", Name: "what was done is not what was wanted", Damage: func(st *catalog.State, p *plan.Plan) {
		backFrom(st, p, 2, 0)
		st.Locks = []catalog.Lock{{Filter: catalog.Filter{Slot: 2, Piece: catalog.None, Plater: 1}}}
	}},
	{Rule: "match-plater", Name: "back from another plater", Damage: func(st *catalog.State, p *plan.Plan) {
		backFrom(st, p, 2, 1)
		st.Matches = []catalog.Match{{ID: "m", Slots: []int{1, 2}, SamePlater: true}}
	}},
	{Rule: "match-plater", Name: "hung, and from another plater", Damage: func(st *catalog.State, _ *plan.Plan) {
		st.Pieces[5].Sent = catalog.Sent{Was: true, Quote: catalog.Quote{Plater: 1}}
		st.Matches = []catalog.Match{{ID: "m", Slots: []int{1, 3}, SamePlater: true}}
	}},
	{Rule: "trade-give", Name: "sold already",
		Damage: func(st *catalog.State, _ *plan.Plan) { st.Pieces[8].Stage = catalog.StageSold }},
}

// backFrom says of the piece of a line that it came back from a plater.
func backFrom(st *catalog.State, p *plan.Plan, line, plater int) {
	piece := &st.Pieces[p.Lines[line].Choice.Piece]
	piece.Stage = catalog.StageBack
	piece.Sent = catalog.Sent{Was: true, Quote: catalog.Quote{Plater: plater, Work: catalog.WorkReplate, Level: "show"}}
}

// TestStageDamages: the plan of a job under way passes, and each single way to forget
// how far pieces have come is named.
func TestStageDamages(t *testing.T) {
	good := func() (*catalog.State, *plan.Plan) {
		st := jobs.StagedJob()
		plan, err := program.Solve(context.Background(), st, solver.Settings{})
		if err != nil || !plan.Has {
			t.Fatal(err, plan.Status, plan.Reasons)
		}
		return st, plan
	}
	st, pl := good()
	if bad := check.Check(st, pl); len(bad) > 0 {
		t.Fatal(bad)
	}
	l := pl.Lines
	if !l[0].Choice.Sent || l[0].Fallback == nil || !l[1].Choice.Sent || l[3].Choice.Piece != 5 ||
		len(pl.Charges) == 0 || pl.Charges[len(pl.Charges)-1].Kind != plan.ChargeTrade {
		adapter.LogPlan(t, "staged job", st, pl)
		t.Fatal("the plan to damage is another one")
	}
	if l[0].Choice.Plate != 0 || l[0].Choice.Days != 20 || l[1].Choice.Plate != 95_00 ||
		plan.ChargeOf(pl, plan.ChargePlaterFreight, 0) != 0 {
		t.Errorf("approved work costs %d and takes %d days, priced work costs %d, freight %d", l[0].Choice.Plate,
			l[0].Choice.Days, l[1].Choice.Plate, plan.ChargeOf(pl, plan.ChargePlaterFreight, 0))
	}
	for _, d := range stageDamages {
		t.Run(d.Rule+" "+d.Name, func(t *testing.T) {
			st, plan := good()
			d.Damage(st, plan)
			found := check.Check(st, plan)
			if !slices.ContainsFunc(found, func(v check.Violation) bool { return v.Rule == d.Rule }) {
				t.Errorf("not named; found %v", found)
			}
		})
	}
}
