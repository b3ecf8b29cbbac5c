package check

import (
	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
)

type Damage struct {
	Rule   string
	Name   string
	Damage func(st *catalog.State, p *plan.Plan)
}

// damages are the ways to damage the good plan: line 0 is plated with a
// fallback, line 1 plated, lines 2 to 4 are bought and hung as they are.
var damages = append(append(figureDamages, lineDamages...), setDamages...)

var figureDamages = []Damage{
	{"figure-get", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[3].Choice.Get-- }},
	{"figure-give", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[3].Choice.Give++ }},
	{"figure-plate", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Plate-- }},
	{"figure-other", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Other++ }},
	{"figure-strip", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Strip = 0 }},
	{"figure-paid", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.ExpectedCost-- }},
	{"figure-cash", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Cash-- }},
	{"figure-breakage", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Breakage-- }},
	{"figure-refused", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Refused-- }},
	{"figure-chance", "of the fallback", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Fallback.Chance++ }},
	{"figure-misfit", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Misfit = 1 }},
	{"figure-back", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Back = 1 }},
	{"figure-fails", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Fails-- }},
	{"figure-grade", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[2].Choice.Grade++ }},
	{"figure-tone", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[2].Choice.Tone++ }},
	{"figure-fresh", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Fresh = false }},
	{"figure-redone", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Redone = false }},
	{"figure-weak", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Weak = true }},
	{"figure-growing", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Growing = true }},
	{"figure-days", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Choice.Days-- }},
	{"figure-mean", "", func(_ *catalog.State, p *plan.Plan) { p.Grade += 0.01 }},
	{"figure-completion", "", func(_ *catalog.State, p *plan.Plan) { p.Completion += 0.0001 }},
	{"line-expected", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Expected-- }},
	{"expected", "", func(_ *catalog.State, p *plan.Plan) { p.Expected-- }},
	{"outlay", "", func(_ *catalog.State, p *plan.Plan) { p.Outlay-- }},
	{"bound", "above", func(_ *catalog.State, p *plan.Plan) { p.Bound++ }},
	{"bound", "below an optimum", func(_ *catalog.State, p *plan.Plan) { p.Bound-- }},
	{"status", "", func(_ *catalog.State, p *plan.Plan) { p.Status = solver.Infeasible }},
	{"charge", "minimum too small",
		func(_ *catalog.State, p *plan.Plan) { chargeOf(p, plan.ChargeMinimum).Cents-- }},
	{"charge", "lot's freight left out",
		func(_ *catalog.State, p *plan.Plan) { chargeOf(p, plan.ChargePlaterFreight).Cents = 0 }},
	{"charge", "vendor's freight left out",
		func(_ *catalog.State, p *plan.Plan) { chargeOf(p, plan.ChargeVendorFreight).Cents = 0 }},
	{"charge", "bundle free", func(_ *catalog.State, p *plan.Plan) { chargeOf(p, plan.ChargeBundle).Cents = 0 }},
	{"charge", "credit too high", func(_ *catalog.State, p *plan.Plan) { chargeOf(p, plan.ChargeTrade).Cents-- }},
	{"charge", "of nobody", func(_ *catalog.State, p *plan.Plan) { chargeOf(p, plan.ChargeTrade).Of = 99 }},
	{"charge", "of no kind",
		func(_ *catalog.State, p *plan.Plan) { chargeOf(p, plan.ChargeBundle).Kind = "ransom" }},
	{"charge", "split in two", func(_ *catalog.State, p *plan.Plan) {
		chargeOf(p, plan.ChargeBundle).Cents -= 100
		p.Charges = append(p.Charges, plan.Charge{Kind: plan.ChargeBundle, Of: 0, Cents: 100})
	}},
	{"charge", "of a plater nothing is sent to", func(_ *catalog.State, p *plan.Plan) {
		p.Charges = append(p.Charges, plan.Charge{Kind: plan.ChargePlaterFreight, Of: 1, Cents: 30_00})
	}},
}

var lineDamages = []Damage{
	{"line-missing", "", func(_ *catalog.State, p *plan.Plan) { p.Lines = p.Lines[1:] }},
	{"line-twice", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[1] = p.Lines[0] }},
	{"slot", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Slot = 9 }},
	{"choice", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice = nil }},
	{"choice-slot", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Slot = 0 }},
	{"piece", "unknown", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Piece = 77 }},
	{"fits", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Piece = 0 }},
	{"quantity", "", func(st *catalog.State, _ *plan.Plan) { st.Slots[1].Quantity = 2 }},
	{"plater", "unknown", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Plater = 5 }},
	{"level", "", func(st *catalog.State, p *plan.Plan) {
		st.Pieces[1].Quotes = []catalog.Quote{{Plater: 0, Level: "show", Cost: 1, Work: catalog.WorkReplate}}
		p.Lines[1].Choice.Plater, p.Lines[1].Choice.Quote, p.Lines[1].Choice.Level = 0, 0, "museum"
	}},
	{"quote", "unknown", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Quote = 0 }},
	{"quote", "replaces the estimate", func(st *catalog.State, p *plan.Plan) {
		st.Pieces[1].Quotes = []catalog.Quote{{ID: "q", Plater: p.Lines[1].Choice.Plater, Cost: 1}}
	}},
	{"work", "unknown", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Work = "gild" }},
	{"work", "nothing to repair", func(_ *catalog.State, p *plan.Plan) { p.Lines[1].Choice.Work = catalog.WorkRepair }},
	{"work", "nothing to clean", func(_ *catalog.State, p *plan.Plan) { p.Lines[2].Choice.Work = catalog.WorkClean }},
	{"work", "refused by the plater", func(st *catalog.State, _ *plan.Plan) { st.Platers[0].Refuses = []int{1} }},
	{"work", "beyond repair", func(st *catalog.State, _ *plan.Plan) {
		st.Tables.Defects[1].By[catalog.Severe].Beyond = jobs.Set(true)
	}},
	{"work", "area unknown", func(st *catalog.State, _ *plan.Plan) { st.Slots[1].Area.Set = false }},
	{"floor", "", func(st *catalog.State, p *plan.Plan) { st.Slots[2].Target.Floor.V = p.Lines[2].Choice.Grade + 1 }},
	{"fresh", "", func(st *catalog.State, _ *plan.Plan) { st.Slots[3].Target.Fresh = jobs.Set(true) }},
	{"lasting", "", func(st *catalog.State, _ *plan.Plan) {
		st.Pieces[5].Findings = []catalog.Finding{{Defect: 2, Extent: 1, Count: 1, Where: catalog.Back}}
	}},
	{"fallback-floor", "the floor", func(st *catalog.State, _ *plan.Plan) { st.Slots[0].Target.Floor.V = 90_01 }},
	{"fallback-floor", "its own", func(st *catalog.State, _ *plan.Plan) {
		st.Slots[0].Target.FallbackFloor = jobs.Set[catalog.Centi](90_01)
	}},
	{"fallback-fresh", "", func(st *catalog.State, _ *plan.Plan) { st.Slots[0].Target.Fresh = jobs.Set(true) }},
	{"fallback-lasting", "", func(st *catalog.State, _ *plan.Plan) {
		st.Pieces[2].Findings = []catalog.Finding{{Defect: 1, Extent: 1, Count: 1, Where: catalog.Face}}
	}},
	{"max-breakage", "", func(st *catalog.State, p *plan.Plan) {
		st.Slots[0].MaxBreakage = jobs.Set(p.Lines[0].Choice.Breakage - 1)
	}},
	{"fallback-piece", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[0].Fallback = p.Lines[0].Choice }},
	{"fallback-needless", "", func(_ *catalog.State, p *plan.Plan) { p.Lines[3].Fallback = p.Lines[3].Choice }},
	{"days", "with the fallback", func(st *catalog.State, p *plan.Plan) {
		st.Job.WithinDays = jobs.Set(p.Lines[0].Choice.Days + p.Lines[0].Fallback.Days - 1)
	}},
	{"days", "with the rescue", func(st *catalog.State, p *plan.Plan) {
		p.Lines[0].Fallback = nil
		st.Job.WithinDays = jobs.Set(p.Lines[0].Choice.Days + 19)
	}},
	{"certain-failure", "", func(st *catalog.State, _ *plan.Plan) { st.Pieces[1].Chance = 0 }},
	{"lock", "", func(st *catalog.State, _ *plan.Plan) {
		st.Locks = []catalog.Lock{{Filter: catalog.Filter{Slot: 0, Piece: 2, Plater: catalog.None}}}
	}},
	{"ban", "of the choice", func(st *catalog.State, p *plan.Plan) {
		st.Bans = []catalog.Ban{{Filter: catalog.Filter{Slot: catalog.None, Piece: catalog.None,
			Plater: p.Lines[1].Choice.Plater}}}
	}},
	{"ban", "of the fallback", func(st *catalog.State, p *plan.Plan) {
		st.Bans = []catalog.Ban{{Filter: catalog.Filter{Slot: 0, Piece: p.Lines[0].Fallback.Piece,
			Plater: catalog.None}}}
	}},
}

var setDamages = []Damage{
	{"piece", "used too often", func(st *catalog.State, p *plan.Plan) {
		st.Pieces[1].Fits = []int{0, 1}
		again := *p.Lines[1].Choice
		again.Slot = 0
		p.Lines[0].Choice = &again
	}},
	{"piece", "held in reserve twice", func(st *catalog.State, p *plan.Plan) {
		st.Pieces[2].Fits = []int{0, 1}
		again := *p.Lines[0].Fallback
		again.Slot = 1
		p.Lines[1].Fallback = &again
	}},
	{"mean", "", func(st *catalog.State, p *plan.Plan) {
		st.Job.Target.Mean = jobs.Set(catalog.Centi(p.Grade*100) + 1)
	}},
	{"match-grade", "", func(st *catalog.State, _ *plan.Plan) {
		st.Matches[0] = catalog.Match{ID: "m", Slots: []int{2, 3}, GradeWithin: jobs.Set[catalog.Centi](7_99)}
	}},
	{"match-tone", "", func(st *catalog.State, _ *plan.Plan) {
		st.Pieces[3].Tone = jobs.Set[catalog.Centi](-2_00)
		st.Matches[0] = catalog.Match{ID: "m", Slots: []int{2, 3}, ToneWithin: jobs.Set[catalog.Centi](1_99)}
	}},
	{"match-plater", "", func(st *catalog.State, p *plan.Plan) {
		other := otherPiece(p)
		again, _, _ := Derive(st, &other)
		p.Lines[1].Choice = again
	}},
	{"match-fresh", "", func(st *catalog.State, _ *plan.Plan) {
		st.Matches[0] = catalog.Match{ID: "m", Slots: []int{2, 3}, FreshAlike: true}
	}},
	{"completion", "", func(st *catalog.State, p *plan.Plan) {
		st.Job.Completion = jobs.Set(catalog.Micro(p.Completion*1e6) + 10)
	}},
	{"budget", "on outlay", func(st *catalog.State, p *plan.Plan) { st.Job.Budget = jobs.Set(p.Outlay - 1) }},
	{"budget", "on expected", func(st *catalog.State, p *plan.Plan) {
		st.Job.Budget, st.Job.BudgetOn = jobs.Set(p.Expected-1), catalog.OnExpected
	}},
	{"trade-once", "made twice",
		func(_ *catalog.State, p *plan.Plan) { p.Charges = append(p.Charges, *chargeOf(p, plan.ChargeTrade)) }},
	{"trade-once", "a piece given twice", func(_ *catalog.State, p *plan.Plan) {
		p.Charges = append(p.Charges, plan.Charge{Kind: plan.ChargeTrade, Of: 1, Cents: -10_00})
	}},
	{"trade-get", "", func(st *catalog.State, _ *plan.Plan) { st.Trades[0].Get = 4 }},
	{"trade-give", "the choice", func(st *catalog.State, _ *plan.Plan) { st.Trades[0].Give = 1 }},
	{"trade-give", "the fallback", func(st *catalog.State, _ *plan.Plan) { st.Trades[0].Give = 2 }},
}

// otherPiece is line 1's piece plated by the other plater.
func otherPiece(p *plan.Plan) plan.Choice {
	c := *p.Lines[1].Choice
	c.Plater, c.Level = 1-c.Plater, "driver"
	return c
}
