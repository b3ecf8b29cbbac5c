package main

import (
	"context"
	"path/filepath"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model"
	"brightset/solver"

	"github.com/spf13/pflag"
)

var reportCommand = command{
	name: "report", args: "[JOB]", most: 1,
	summary: "write the whole decision as one page: pieces side by side, charts, reasons",
	text:    "Writes one HTML file that needs nothing else: no script, no network. It opens from disk and by mail, and prints. It has the decision for every slot with all pieces side by side, what more grade costs, where the money goes, how it may turn out, what would change the decision, what to find out and to hunt for.",
	setup: func(flags *pflag.FlagSet) action {
		var o reportOptions
		flags.StringVar(&o.out, "out", "", "the `FILE` to write (default: report.html beside the job's file)")
		flags.BoolVar(&o.json, "json", false, "write what was written as one JSON document")
		flags.DurationVar(&o.limit, "time-limit", 0, "stop each search after `TIME`, such as 30s (default: no limit)")
		return o.run
	},
}

type reportOptions struct {
	out   string
	json  bool
	limit time.Duration
}

func (o *reportOptions) run(c *call) (int, error) {
	if err := goodLimit(o.limit, "brightset report --time-limit 30s"); err != nil {
		return 0, err
	}
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	ctx, stop := interruptible()
	defer stop()
	line := newProgress(c.err)
	whole, plan, err := gatherReport(ctx, st, solver.Settings{TimeLimit: o.limit, Progress: line.told})
	line.done()
	if err != nil {
		return 0, err
	}
	if !plan.Has {
		return (&planOptions{json: o.json}).answer(c, st, plan)
	}
	out := o.out
	if out == "" {
		out = filepath.Join(filepath.Dir(st.Job.File), "report.html")
	}
	text, err := whole.Page().HTML()
	if err != nil {
		return 0, err
	}
	if err := writeWhole(out, text); err != nil {
		return 0, err
	}
	code := exitCode(plan)
	if ctx.Err() != nil {
		code = exitInterrupted
	}
	if !o.json {
		return code, c.print(report.Paragraph("", "", "Written: "+out+", plan "+model.Fingerprint(st, plan)))
	}
	doc, err := report.WrittenJSON(&whole.Papers, []string{out})
	if err == nil {
		err = c.print(doc)
	}
	return code, err
}

// gatherReport finds everything the report says.
func gatherReport(ctx context.Context, st *catalog.State, set solver.Settings) (*report.Whole, *model.Plan, error) {
	papers, plan, err := gather(ctx, st, set)
	if err != nil || !plan.Has {
		return nil, plan, err
	}
	w := &report.Whole{Papers: *papers, Risk: model.RiskOf(st, plan), Sim: model.Simulate(st, plan, riskRuns, riskSeed)}
	if w.Curve, err = model.Frontier(ctx, st, reportStep, set); err != nil {
		return nil, nil, err
	}
	if w.Since, err = since(ctx, st, set); err != nil {
		return nil, nil, err
	}
	w.Unknown = &report.Unknown{}
	w.Unknown.All, w.Unknown.Whole, err = model.FindOuts(ctx, st, plan, set)
	return w, plan, err
}

// reportStep is how finely the curve in the report is drawn, in hundredths of a point.
const reportStep = 100
