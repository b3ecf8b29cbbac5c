package main

import (
	"context"

	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"

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
	text: "Works out what the plan may cost in the end when pieces break, are sent back or don't come, how likely " +
		"budget and date are kept, which slots the bad cases come from, what it means if a plater loses a lot, and how " +
		"much contingency to quote.",
	setup: func(flags *pflag.FlagSet) action {
		var o riskOptions
		o.jsonFlag(flags, "write the answer as one JSON document, with the distribution of what is spent")
		flags.BoolVar(&o.detail, "detail", false, "show the figures, and how they are come by")
		flags.BoolVar(&o.findOut, "find-out", false, "also look for what is worth finding out before anything is "+
			"committed; it takes a solve for every price, breakage, grade, lead and starting value that is not firm, 20s in "+
			"all unless --time-limit says otherwise")
		o.limitFlag(flags, "risk", "30s", "30s", "no limit")
		return o.run
	},
}

type riskOptions struct {
	question
	detail, findOut bool
}

func (o *riskOptions) run(c *call) (int, error) {
	st, err := o.load(c)
	if err != nil {
		return 0, err
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		p, err := program.Solve(ctx, st, line.settings())
		if err != nil {
			return answer{}, err
		}
		if !p.Has {
			return o.noPlan(ctx, line, p, &report.Beside{})
		}
		line.now("working out how it may turn out")
		r, sim := risk.RiskOf(ctx, p), risk.Simulate(ctx, p, riskRuns, riskSeed)
		var unknown *report.Unknown
		if o.findOut { // what takes longest comes last
			if unknown, err = findOut(ctx, line, p); err != nil {
				return answer{}, err
			}
		}
		return answer{
			code:  exitCode(p),
			early: r.Coarse || !sim.Whole() || unknown != nil && !unknown.Whole,
			text:  func() string { return report.Risk(r, sim, unknown, o.detail) },
			json:  func() (string, error) { return report.RiskJSON(r, sim, unknown) },
		}, nil
	})
}

// findOut looks for what is worth finding out before anything is committed.
func findOut(ctx context.Context, line *progress, p *plan.Plan) (u *report.Unknown, err error) {
	line.now("looking for what to find out")
	u = &report.Unknown{}
	u.All, u.Whole, err = ask.InformationValues(ctx, p, line.settings())
	return u, err
}
