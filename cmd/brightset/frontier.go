package main

import (
	"fmt"
	"math"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/solver"

	"github.com/spf13/pflag"
)

var frontierCommand = command{
	name: "frontier", args: "[JOB]", most: 1,
	summary: "show what more grade costs, from the cheapest set to the best",
	text:    "Works out the least the whole set costs for each weighted mean, from the cheapest set to the highest mean any set reaches, every point proven; says where today's budget ends and the named targets lie, and what changes from point to point.",
	setup: func(flags *pflag.FlagSet) action {
		var o frontierOptions
		flags.Float64Var(&o.step, "step", 2, "how many `POINTS` of grade lie between two points, 0.01 to 100")
		flags.BoolVar(&o.all, "all", false, "show every set that no other beats in both mean and total")
		flags.BoolVar(&o.json, "json", false, "write the answer as one JSON document")
		flags.BoolVar(&o.csv, "csv", false, "write the points as CSV, for a spreadsheet")
		flags.DurationVar(&o.limit, "time-limit", 0, "stop after `TIME`, such as 10s, with what was found so far (default: no limit)")
		return o.run
	},
}

type frontierOptions struct {
	step           float64
	all, json, csv bool
	limit          time.Duration
}

func (o *frontierOptions) run(c *call) (int, error) {
	switch {
	case !(o.step >= 0.01 && o.step <= 100):
		return 0, usageError{fmt.Sprintf("a step of %v points is not between 0.01 and 100; type: brightset frontier --step 2", o.step)}
	case o.limit < 0:
		return 0, usageError{fmt.Sprintf("a time limit of %q is negative; type: brightset frontier --time-limit 10s", o.limit.String())}
	case o.json && o.csv:
		return 0, usageError{"--json and --csv are two answers; type one of them"}
	}
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	ctx, stop := searching(o.limit)
	defer stop()
	step := catalog.Centi(math.Round(o.step * 100))
	if o.all {
		step = 0
	}
	line := newProgress(c.err)
	curve, err := ask.Frontier(ctx, st, step, solver.Settings{Progress: line.told})
	line.done()
	if err != nil {
		return 0, err
	}
	if curve.NoPlan != nil {
		return (&planOptions{json: o.json}).answer(ctx, c, st, curve.NoPlan)
	}
	text, err := o.write(st, curve)
	if err == nil {
		err = c.print(text)
	}
	switch {
	case interrupted(ctx):
		return exitInterrupted, err
	case !curve.Whole:
		return exitUnproven, err
	}
	return exitAnswered, err
}

func (o *frontierOptions) write(st *catalog.State, curve *ask.Curve) (string, error) {
	switch {
	case o.json:
		return report.FrontierJSON(st, curve)
	case o.csv:
		return report.FrontierCSV(curve)
	}
	return report.Frontier(st, curve), nil
}
