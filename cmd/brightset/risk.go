package main

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model"
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
		flags.BoolVar(&o.json, "json", false, "write the answer as one JSON document")
		flags.BoolVar(&o.detail, "detail", false, "show the figures, and how they are come by")
		flags.BoolVar(&o.findOut, "find-out", false, "also look for what is worth finding out before anything is committed; it takes a solve for every price, breakage, grade, lead and starting value that is not firm, 20s in all unless --time-limit says otherwise")
		flags.DurationVar(&o.limit, "time-limit", 0, "stop each search after `TIME`, such as 30s (default: no limit)")
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
	ctx, stop := interruptible()
	defer stop()
	plan, unknown, err := o.look(ctx, c, st)
	if err != nil {
		return 0, err
	}
	if !plan.Has {
		return (&planOptions{json: o.json}).answer(c, st, plan)
	}
	code := exitCode(plan)
	switch {
	case ctx.Err() != nil:
		code = exitInterrupted
	case unknown != nil && !unknown.Whole:
		code = exitUnproven
	}
	r, s := model.RiskOf(st, plan), model.Simulate(st, plan, riskRuns, riskSeed)
	if !o.json {
		return code, c.print(report.Risk(st, r, s, unknown, o.detail))
	}
	text, err := report.RiskJSON(st, r, s, unknown)
	if err == nil {
		err = c.print(text)
	}
	return code, err
}

// look finds the plan and, if that is asked for, what is worth finding out about it.
func (o *riskOptions) look(ctx context.Context, c *call, st *catalog.State) (*model.Plan, *report.Unknown, error) {
	line := newProgress(c.err)
	defer line.done()
	set := solver.Settings{TimeLimit: o.limit, Progress: line.told}
	plan, err := model.Solve(ctx, st, set)
	if err != nil || !plan.Has || !o.findOut {
		return plan, nil, err
	}
	unknown := &report.Unknown{}
	unknown.All, unknown.Whole, err = model.FindOuts(ctx, st, plan, set)
	return plan, unknown, err
}
