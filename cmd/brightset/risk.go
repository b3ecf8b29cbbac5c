package main

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"
	"brightset/solver"

	"github.com/spf13/pflag"
)

// The simulation: as many runs as make its sampling error small beside that of the
// estimates, and one seed, so that the answer is the same every time.
const (
	riskRuns = 20_000
	riskSeed = 1
)

var riskCommand = command{
	name: "risk", args: "[JOB]", most: 1,
	summary: "say how the plan may turn out, and what to keep for it",
	text:    "Works out what the plan may cost in the end when pieces break, are sent back or don't come, how likely budget and date are kept, which slots the bad cases come from, what it means if a plater loses a lot, and how much contingency to quote.",
	setup: func(flags *pflag.FlagSet) action {
		var o riskOptions
		flags.BoolVar(&o.json, "json", false, "write the answer as one JSON document, with the distribution of what is spent")
		flags.BoolVar(&o.detail, "detail", false, "show the figures, and how they are come by")
		flags.BoolVar(&o.findOut, "find-out", false, "also look for what is worth finding out before anything is committed; it takes a solve for every price, breakage, grade, lead and starting value that is not firm, 20s in all unless --time-limit says otherwise")
		flags.DurationVar(&o.limit, "time-limit", 0, "stop after `TIME`, such as 30s, with what was found so far (default: no limit)")
		return o.run
	},
}

type riskOptions struct {
	json, detail, findOut bool
	limit                 time.Duration
}

func (o *riskOptions) run(c *call) (int, error) {
	if err := goodLimit(o.limit, "brightset risk --time-limit 30s"); err != nil {
		return 0, err
	}
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	ctx, stop := searching(o.limit)
	defer stop()
	a, err := o.look(ctx, c, st)
	if err != nil {
		return 0, err
	}
	if !a.plan.Has {
		return (&planOptions{json: o.json}).answer(ctx, c, st, a.plan)
	}
	code := exitCode(a.plan)
	switch {
	case interrupted(ctx):
		code = exitInterrupted
	case a.risk.Coarse, !a.sim.Whole(), a.unknown != nil && !a.unknown.Whole:
		code = exitUnproven
	}
	if !o.json {
		return code, c.print(report.Risk(st, a.risk, a.sim, a.unknown, o.detail))
	}
	text, err := report.RiskJSON(st, a.risk, a.sim, a.unknown)
	if err == nil {
		err = c.print(text)
	}
	return code, err
}

// riskAnswer is a plan and what is said of it; unknown is nil where that wasn't asked for.
type riskAnswer struct {
	plan    *plan.Plan
	risk    *risk.Risk
	sim     *risk.Simulation
	unknown *report.Unknown
}

// look finds the plan, how it may turn out and, if that is asked for, what is worth
// finding out about it, which takes longest and so comes last.
func (o *riskOptions) look(ctx context.Context, c *call, st *catalog.State) (a riskAnswer, err error) {
	line := newProgress(c.err)
	defer line.done()
	set := solver.Settings{Progress: line.told}
	if a.plan, err = program.Solve(ctx, st, set); err != nil || !a.plan.Has {
		return a, err
	}
	line.now("working out how it may turn out")
	a.risk, a.sim = risk.RiskOf(ctx, st, a.plan), risk.Simulate(ctx, st, a.plan, riskRuns, riskSeed)
	if o.findOut {
		line.now("looking for what to find out")
		a.unknown = &report.Unknown{}
		a.unknown.All, a.unknown.Whole, err = ask.InformationValues(ctx, st, a.plan, set)
	}
	return a, err
}
