package model

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// stagedJob is judgeJob twelve days on: both rims are at north's, the left one approved
// and the right one priced, the hook hangs, the bezel's old one is stripped, and a rim
// is back from north. All invented.
func stagedJob() *catalog.State {
	st := judgeJob()
	st.Job.Elapsed = 12
	st.Job.WithinDays = randomSet(150)
	at := func(piece int, stage catalog.Stage, work, level string, cost catalog.Cents) *catalog.Piece {
		p := &st.Pieces[piece]
		p.Stage = stage
		p.Sent = catalog.Sent{Was: true, Lot: "north-1", Since: 10, Count: 1, Quote: catalog.Quote{
			Plater: 0, Work: work, Level: level, Cost: cost, Breakage: randomSet[catalog.Micro](80_000), Refused: randomSet[catalog.Micro](50_000),
			Grade: randomSet[catalog.Centi](90_00), Days: randomSet(30)}}
		return p
	}
	at(0, catalog.StageApproved, catalog.WorkRepair, "show", 180_00)
	at(1, catalog.StagePriced, catalog.WorkReplate, "driver", 95_00)
	p := &st.Pieces[5]
	p.Stage, p.HungIn = catalog.StageHung, 3
	st.Pieces[4].Stage = catalog.StageStripped
	st.Pieces = append(st.Pieces, catalog.Piece{ID: "rr-2", Fits: []int{1}, Kind: catalog.Original, Vendor: catalog.None, Bundle: catalog.None,
		Metal: randomBrass, Quantity: 1, Chance: catalog.One, Grade: randomSet[catalog.Centi](60_00)},
		catalog.Piece{ID: "hk-2", Fits: []int{3}, Kind: catalog.Original, Vendor: catalog.None, Bundle: catalog.None,
			Metal: randomBrass, Quantity: 1, Chance: catalog.One, Grade: randomSet[catalog.Centi](95_00)})
	st.Trades = []catalog.Trade{{ID: "swap", Give: 8, Get: 5, Credit: 5_00}}
	return st
}

// asIsOf is a choice that hangs a piece as it is, with figures of no account.
func asIsOf(slot, piece int) *Choice {
	return &Choice{Slot: slot, Piece: piece, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None, Chance: catalog.One, Grade: 90_00}
}

// stageDamages are the ways to forget how far pieces have come. Line 0 is at a plater's
// with a fallback, line 1 too, line 3 hangs.
var stageDamages = []judgeDamage{
	{"gone", "broken", func(st *catalog.State, _ *Plan) { st.Pieces[0].Stage = catalog.StageBroken }},
	{"gone", "lost, and held in reserve", func(st *catalog.State, p *Plan) { st.Pieces[p.Lines[0].Fallback.Piece].Stage = catalog.StageLost }},
	{"gone", "sold", func(st *catalog.State, p *Plan) { st.Pieces[p.Lines[4].Choice.Piece].Stage = catalog.StageSold }},
	{"gone", "on another job", func(st *catalog.State, _ *Plan) { st.Pieces[5].Elsewhere = true }},
	{"sent", "another plater", func(_ *catalog.State, p *Plan) { p.Lines[0].Choice.Plater = 1 }},
	{"sent", "another work", func(_ *catalog.State, p *Plan) { p.Lines[0].Choice.Work = catalog.WorkReplate }},
	{"sent", "another level", func(_ *catalog.State, p *Plan) { p.Lines[0].Choice.Level = "driver" }},
	{"sent", "another price", func(st *catalog.State, p *Plan) {
		st.Pieces[1].Quotes = []catalog.Quote{{ID: "q", Plater: 0, Cost: 1, Work: catalog.WorkReplate, Level: "driver"}}
		p.Lines[1].Choice.Quote = 0
	}},
	{"sent", "not stripped yet, as it is", func(st *catalog.State, p *Plan) {
		st.Pieces[0].Stage = catalog.StageSeen
		p.Lines[0].Choice = asIsOf(0, 0)
	}},
	{"stripped", "as it is", func(_ *catalog.State, p *Plan) { p.Lines[2].Choice = asIsOf(2, 4) }},
	{"stripped", "as it is, at the plater's", func(_ *catalog.State, p *Plan) { p.Lines[0].Choice = asIsOf(0, 0) }},
	{"stripped", "cleaned", func(_ *catalog.State, p *Plan) {
		p.Lines[2].Choice = asIsOf(2, 4)
		p.Lines[2].Choice.Work = catalog.WorkClean
	}},
	{"hung", "another hangs there", func(_ *catalog.State, p *Plan) { p.Lines[3].Choice = asIsOf(3, 8) }},
	{"hung", "it hangs elsewhere", func(st *catalog.State, p *Plan) {
		c := p.Lines[4].Choice
		st.Pieces[c.Piece].Stage, st.Pieces[c.Piece].HungIn = catalog.StageHung, 2
	}},
	{"hung", "plated where it hangs", func(_ *catalog.State, p *Plan) {
		p.Lines[3].Choice.Work, p.Lines[3].Choice.Plater, p.Lines[3].Choice.Level = catalog.WorkReplate, 0, "show"
	}},
	{"charge", "freight of a sent lot", func(_ *catalog.State, p *Plan) { p.Charges = append(p.Charges, Charge{ChargePlaterFreight, 0, 25_00}) }},
	{"charge", "least charge of a sent lot", func(_ *catalog.State, p *Plan) { p.Charges = append(p.Charges, Charge{ChargeMinimum, 0, 205_00}) }},
	{"figure-plate", "approved, and paid for again", func(_ *catalog.State, p *Plan) { p.Lines[0].Choice.Plate = 180_00 }},
	{"figure-plate", "at the old price", func(st *catalog.State, _ *Plan) { st.Pieces[1].Sent.Cost += 10_00 }},
	{"figure-breakage", "plated, and can't break any more", func(st *catalog.State, _ *Plan) { st.Pieces[0].Stage = catalog.StagePlated }},
	{"figure-refused", "plated, and kept", func(st *catalog.State, _ *Plan) { st.Pieces[0].Stage = catalog.StagePlated }},
	{"figure-days", "days gone by", func(st *catalog.State, _ *Plan) { st.Pieces[0].Sent.Since++ }},
	{"days", "off by one", func(st *catalog.State, p *Plan) {
		st.Job.WithinDays = randomSet(12 + p.Lines[0].Choice.Days + p.Lines[0].Fallback.Days - 1)
	}},
	{"days", "the days gone by forgotten", func(st *catalog.State, p *Plan) {
		st.Job.WithinDays = randomSet(p.Lines[0].Choice.Days + p.Lines[0].Fallback.Days)
	}},
	{"line-expected", "a fallback at a plater's pays no lot", func(st *catalog.State, p *Plan) {
		f := p.Lines[0].Fallback
		st.Pieces[f.Piece].Sent = catalog.Sent{Was: true, Quote: catalog.Quote{Plater: 1, Work: catalog.WorkReplate, Cost: 10_00, Grade: randomSet[catalog.Centi](90_00)}}
		again, _, _ := judgeDerive(st, &Choice{Slot: 0, Piece: f.Piece, Work: catalog.WorkReplate, Plater: 1, Quote: catalog.None})
		p.Lines[0].Fallback = again
		p.Lines[0].Expected = judgeExpected(st, p.Lines[0].Choice, again) + catalog.Of(p.Lines[0].Choice.Fails, catalog.Cents(30_00))
	}},
	{"lock", "what was done is not what was wanted", func(st *catalog.State, p *Plan) {
		backFrom(st, p, 2, 0)
		st.Locks = []catalog.Lock{{Filter: catalog.Filter{Slot: 2, Piece: catalog.None, Plater: 1}}}
	}},
	{"match-plater", "back from another plater", func(st *catalog.State, p *Plan) {
		backFrom(st, p, 2, 1)
		st.Matches = []catalog.Match{{ID: "m", Slots: []int{1, 2}, SamePlater: true}}
	}},
	{"match-plater", "hung, and from another plater", func(st *catalog.State, _ *Plan) {
		st.Pieces[5].Sent = catalog.Sent{Was: true, Quote: catalog.Quote{Plater: 1}}
		st.Matches = []catalog.Match{{ID: "m", Slots: []int{1, 3}, SamePlater: true}}
	}},
	{"trade-give", "sold already", func(st *catalog.State, _ *Plan) { st.Pieces[8].Stage = catalog.StageSold }},
}

// backFrom says of the piece of a line that it came back from a plater.
func backFrom(st *catalog.State, p *Plan, line, plater int) {
	piece := &st.Pieces[p.Lines[line].Choice.Piece]
	piece.Stage = catalog.StageBack
	piece.Sent = catalog.Sent{Was: true, Quote: catalog.Quote{Plater: plater, Work: catalog.WorkReplate, Level: "show"}}
}

// TestStageDamages: the plan of a job under way passes, and each single way to forget
// how far pieces have come is named.
func TestStageDamages(t *testing.T) {
	good := func() (*catalog.State, *Plan) {
		st := stagedJob()
		plan, err := Solve(context.Background(), st, solver.Settings{})
		if err != nil || !plan.Has {
			t.Fatal(err, plan.Status, plan.Reasons)
		}
		return st, plan
	}
	st, plan := good()
	if bad := Check(st, plan); len(bad) > 0 {
		t.Fatal(bad)
	}
	l := plan.Lines
	if !l[0].Choice.Sent || l[0].Fallback == nil || !l[1].Choice.Sent || l[3].Choice.Piece != 5 || len(plan.Charges) == 0 || plan.Charges[len(plan.Charges)-1].Kind != ChargeTrade {
		bruteLogPlan(t, "staged job", st, plan)
		t.Fatal("the plan to damage is another one")
	}
	if l[0].Choice.Plate != 0 || l[0].Choice.Days != 20 || l[1].Choice.Plate != 95_00 || chargeOf(plan, ChargePlaterFreight, 0) != 0 {
		t.Errorf("approved work costs %d and takes %d days, priced work costs %d, freight %d", l[0].Choice.Plate, l[0].Choice.Days, l[1].Choice.Plate, chargeOf(plan, ChargePlaterFreight, 0))
	}
	for _, d := range stageDamages {
		t.Run(d.rule+" "+d.name, func(t *testing.T) {
			st, plan := good()
			d.damage(st, plan)
			found := Check(st, plan)
			if !slices.ContainsFunc(found, func(v Violation) bool { return v.Rule == d.rule }) {
				t.Errorf("not named; found %v", found)
			}
		})
	}
}
