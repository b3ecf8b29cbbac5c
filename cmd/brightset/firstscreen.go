package main

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/model/risk"
)

// nineInTen is the share of jobs that the first screen speaks of.
const nineInTen = 0.9

// nineWithin is what nine in ten jobs like this one spend at most, estimates that are off
// reckoned in: what the screen says, and what the owner's quote sets aside for. false where
// time was up before that was known.
func nineWithin(ctx context.Context, p *plan.Plan) (catalog.Cents, bool) {
	return nineOf(risk.Simulate(ctx, p, riskRuns, riskSeed))
}

// nineOf is the same, of how a plan may turn out.
func nineOf(s *risk.Simulation) (catalog.Cents, bool) {
	if !s.Whole() {
		return 0, false
	}
	return risk.Quantile(s.Cash, nineInTen), true
}

// sharesSpares says whether some spare is held for two positions.
func sharesSpares(p *plan.Plan) bool {
	return slices.ContainsFunc(p.Lines, func(l plan.Line) bool { return l.Sharing != nil })
}

// screenOf works out what the first screen says besides a plan: how it may turn out, what
// the owner pays, what is to be done and what has changed.
func screenOf(ctx context.Context, line *progress, p *plan.Plan, since *report.Since) *report.Screen {
	s := &report.Screen{Acts: paper.Todo(p)}
	if !sharesSpares(p) { // how a plan turns out is worked out for a spare behind each
		line.now("working out how it may turn out")
		s.Outlook.Days = risk.DaysOf(p, nineInTen)
		s.Outlook.Nine, _ = nineWithin(ctx, p)
	}
	if p.Of.Quote.Given {
		s.Outlook.Owner = paper.OwnerQuoteOf(p, nil, true, 0).Total
	}
	if since != nil {
		s.Since, s.Changed = since.Called, len(plan.PlanChanges(since.Lines, since.Seq, p))
	}
	return s
}
