package main

import (
	"context"
	"fmt"
	"math"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"

	"github.com/spf13/pflag"
)

var frontierCommand = command{
	name: "frontier", args: "[JOB]", most: 1,
	summary: "show what more grade costs, from the cheapest set to the best",
	text: "Works out the least the whole set costs for each weighted mean, from the cheapest set to the highest mean " +
		"any set reaches, every point proven; says where today's budget ends and the named targets lie, and what changes " +
		"from point to point.",
	setup: func(flags *pflag.FlagSet) action {
		var o frontierOptions
		flags.Float64Var(&o.step, "step", 2, "how many `POINTS` of grade lie between two points, 0.01 to 100")
		flags.BoolVar(&o.all, "all", false, "show every set that no other beats in both mean and total")
		o.jsonFlag(flags, "write the answer as one JSON document")
		flags.BoolVar(&o.csv, "csv", false, "write the points as CSV, for a spreadsheet")
		o.limitFlag(flags, "frontier", "10s", "10s", "no limit")
		return o.run
	},
}

type frontierOptions struct {
	question
	step float64
	all  bool
}

func (o *frontierOptions) run(c *call) (int, error) {
	switch {
	case !(o.step >= 0.01 && o.step <= 100):
		return 0, usageError{fmt.Sprintf("a step of %v points is not between 0.01 and 100; type: brightset frontier --step 2",
			o.step)}
	case o.json && o.csv:
		return 0, usageError{"--json and --csv are two answers; type one of them"}
	}
	st, err := o.load(c)
	if err != nil {
		return 0, err
	}
	step := catalog.Centi(math.Round(o.step * 100))
	if o.all {
		step = 0
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		line.now("asking what each grade would cost")
		curve, err := ask.Frontier(ctx, st, step, line.settings())
		if err != nil {
			return answer{}, err
		}
		if curve.NoPlan != nil {
			return o.noPlan(ctx, line, curve.NoPlan, &report.Beside{})
		}
		return answer{
			early: !curve.Whole,
			text:  func() string { return report.Frontier(curve) },
			json:  func() (string, error) { return report.FrontierJSON(curve) },
			csv:   func() (string, error) { return report.FrontierCSV(curve) },
		}, nil
	})
}
