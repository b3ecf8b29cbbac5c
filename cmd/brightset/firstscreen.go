package main

import (
	"context"

	"brightset/cmd/brightset/internal/report"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/model/risk"
)

// nineInTen is the share of jobs that the first screen speaks of.
const nineInTen = 0.9

// screenOf works out what the first screen says besides a plan: how it may turn out, what
// the owner pays, what is to be done and what has changed.
func screenOf(ctx context.Context, line *progress, p *plan.Plan, since *report.Since) *report.Screen {
	line.now("working out how it may turn out")
	r := risk.RiskOf(ctx, p)
	s := &report.Screen{Acts: paper.Todo(p)}
	s.Outlook.Days = r.Days(nineInTen)
	if !r.Coarse {
		s.Outlook.Nine = r.Cash.Quantile(nineInTen)
	}
	if p.Of.Quote.Given {
		s.Outlook.Owner = paper.OwnerQuoteOf(p, nil, 0).Total
	}
	if since != nil {
		s.Since, s.Changed = since.Called, len(plan.PlanChanges(since.Lines, since.Seq, p))
	}
	return s
}
