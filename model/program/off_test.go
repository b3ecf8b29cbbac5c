package program

import (
	"brightset/catalog"
	"brightset/model/internal/jobs"
)

// ruleOff takes one rule or one kind of cost out of a state.
type ruleOff struct {
	name  string // the feature that brings it in
	off   func(st *catalog.State)
	named []string // what Check calls a breach; empty where it is a cost
}

// options brings the rule into every random job, together with what lets it
// decide something.
func (r *ruleOff) options() jobs.Options {
	opt := jobs.Options{On: []string{r.name}}
	switch r.name {
	case "budget-quote":
		opt.Off = []string{"budget-outlay", "budget-expected"}
	case "budget-expected":
		opt.Off = []string{"budget-outlay"} // a job has one budget
	case "bears":
		opt.On = append(opt.On, "soundness")
	case "match-plater":
		opt.On = append(opt.On, "second-plater", "fresh") // something has to be plated, by either
		opt.Off = []string{"minimum", "freight", "days", "completion", "floor", "budget-outlay", "budget-expected",
			"match-grade", "match-tone"}
	case "max-breakage":
		opt.On = append(opt.On, "fresh")
		opt.Off = []string{"days", "completion", "budget-outlay", "budget-expected"}
	}
	return opt
}

// rulesOff are all rules and costs that can be switched off in a state.
var rulesOff = []ruleOff{
	{"floor", eachTarget(func(t *catalog.Target) { t.Floor = catalog.Val[catalog.Centi]{} }),
		[]string{"floor", "fallback-floor"}},
	{"fallback-floor", eachTarget(func(t *catalog.Target) { t.FallbackFloor = catalog.Val[catalog.Centi]{} }),
		nil},
	{"fresh", eachTarget(func(t *catalog.Target) { t.Fresh = catalog.Val[bool]{} }),
		[]string{"fresh", "fallback-fresh"}},
	{"redone", eachTarget(func(t *catalog.Target) { t.Redone = catalog.Val[bool]{} }),
		[]string{"redone", "fallback-redone"}},
	{"bears", func(st *catalog.State) {
		for s := range st.Slots {
			st.Slots[s].Bears = false
		}
	}, []string{"bears", "fallback-bears"}},
	{"soundness", func(st *catalog.State) {
		for d := range st.Tables.Defects {
			st.Tables.Defects[d].Soundness = catalog.OfFinish
		}
		for p := range st.Pieces {
			st.Pieces[p].Weak = false
		}
	}, []string{"unsound", "figure-weak", "bears", "fallback-bears"}},
	{"lasting", eachTarget(func(t *catalog.Target) { t.Lasting = catalog.Val[bool]{} }),
		[]string{"lasting", "fallback-lasting"}},
	{"mean", func(st *catalog.State) { st.Job.Target.Mean = catalog.Val[catalog.Centi]{} }, []string{"mean"}},
	{"max-breakage", func(st *catalog.State) {
		for s := range st.Slots {
			st.Slots[s].MaxBreakage = catalog.Val[catalog.Micro]{}
		}
	}, []string{"max-breakage"}},
	{"match-grade", eachMatch(func(m *catalog.Match) { m.GradeWithin = catalog.Val[catalog.Centi]{} }),
		[]string{"match-grade"}},
	{"match-tone", eachMatch(func(m *catalog.Match) { m.ToneWithin = catalog.Val[catalog.Centi]{} }),
		[]string{"match-tone"}},
	{"match-plater", eachMatch(func(m *catalog.Match) { m.SamePlater = false }), []string{"match-plater"}},
	{"match-fresh", eachMatch(func(m *catalog.Match) { m.FreshAlike = false }), []string{"match-fresh"}},
	{"days", func(st *catalog.State) { st.Job.WithinDays = catalog.Val[int]{} }, []string{"days"}},
	{"completion", func(st *catalog.State) { st.Job.Completion = catalog.Val[catalog.Micro]{} },
		[]string{"completion"}},
	{"budget-outlay", func(st *catalog.State) { st.Job.Budget = catalog.Val[catalog.Cents]{} }, []string{"budget"}},
	{"budget-expected", func(st *catalog.State) { st.Job.Budget = catalog.Val[catalog.Cents]{} }, []string{"budget"}},
	{"budget-quote", func(st *catalog.State) { st.Job.Budget = catalog.Val[catalog.Cents]{} }, []string{"budget"}},
	{"lock", func(st *catalog.State) { st.Locks = nil }, []string{"lock"}},
	{"ban", func(st *catalog.State) { st.Bans = nil }, []string{"ban"}},
	{"works-in", func(st *catalog.State) {
		for d := range st.Tables.Defects {
			for s := range st.Tables.Defects[d].By {
				st.Tables.Defects[d].By[s].WorksIn = nil
			}
		}
	}, nil},
	{"after", func(st *catalog.State) {
		for w := range st.Tables.Works {
			st.Tables.Works[w].Order = catalog.Val[int]{}
		}
	}, nil},
	{"shared", eachPiece(func(p *catalog.Piece) { p.Quantity += 20 }), []string{"piece", "quantity"}},
	{"trade", func(st *catalog.State) { st.Trades = nil }, nil},
	{"minimum", eachPlater(func(q *catalog.Plater) { q.Minimum = 0 }), nil},
	{"freight", eachPlater(func(q *catalog.Plater) { q.Freight = 0 }), nil},
	{"strip", eachPlater(func(q *catalog.Plater) { q.StripFee = 0 }), nil},
	{"refuses", eachPlater(func(q *catalog.Plater) { q.Refuses = nil }), nil},
	{"vendor", func(st *catalog.State) {
		for v := range st.Vendors {
			st.Vendors[v].Freight = 0
		}
	}, nil},
	{"bundle", func(st *catalog.State) { st.Bundles[0].Price = 0 }, nil},
	{"box", func(st *catalog.State) { // one holds all that there are
		for b := range st.Bundles {
			if bundle := &st.Bundles[b]; bundle.Box > 0 {
				bundle.Box = catalog.MaxQuantity
			}
		}
	}, []string{"charge"}},
	{"quote", eachPiece(func(p *catalog.Piece) { p.Quotes = nil }), nil},
	{"fit", eachPiece(func(p *catalog.Piece) { p.Fit = nil }), nil},
	{"value", eachPiece(func(p *catalog.Piece) { p.Value = 0 }), nil},
	{"keep", eachPiece(func(p *catalog.Piece) { p.Off = false }), nil},
	{"misfit", func(st *catalog.State) { st.Shop.Misfit = catalog.Val[catalog.Micro]{} }, nil},
	{"lead", eachPiece(func(p *catalog.Piece) { p.Chance = catalog.One }), nil},
	{"quantity", func(st *catalog.State) {
		for s := range st.Slots {
			st.Slots[s].Quantity = 1
		}
	}, nil},
}

func eachTarget(change func(*catalog.Target)) func(*catalog.State) {
	return func(st *catalog.State) {
		for s := range st.Slots {
			change(&st.Slots[s].Target)
		}
	}
}

func eachMatch(change func(*catalog.Match)) func(*catalog.State) {
	return func(st *catalog.State) {
		for m := range st.Matches {
			change(&st.Matches[m])
		}
	}
}

func eachPiece(change func(*catalog.Piece)) func(*catalog.State) {
	return func(st *catalog.State) {
		for p := range st.Pieces {
			change(&st.Pieces[p])
		}
	}
}

func eachPlater(change func(*catalog.Plater)) func(*catalog.State) {
	return func(st *catalog.State) {
		for q := range st.Platers {
			change(&st.Platers[q])
		}
	}
}
