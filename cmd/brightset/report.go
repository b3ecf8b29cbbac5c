package main

import (
	"context"
	"errors"
	"path/filepath"
	"time"

	"brightset/catalog"
	"brightset/catalog/disk"
	"brightset/cmd/brightset/internal/report"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/risk"
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
		flags.DurationVar(&o.limit, "time-limit", 0, "stop after `TIME`, such as 30s, with what was found so far (default: no limit)")
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
	out := o.out
	if out == "" {
		out = filepath.Join(filepath.Dir(st.Job.File), "report.html")
	}
	if err := errors.Join(disk.Answer(out), disk.Replaceable(out, page.Mark)); err != nil {
		return 0, err // now, and not after a long search
	}
	ctx, stop := searching(o.limit)
	defer stop()
	line := newProgress(c.err)
	whole, pl, err := gatherReport(ctx, st, line)
	line.done()
	if err != nil {
		return 0, err
	}
	if !pl.Has {
		return (&planOptions{json: o.json}).answer(ctx, c, st, pl)
	}
	text, err := whole.Page().HTML()
	if err != nil {
		return 0, err
	}
	if err := disk.Replace(out, text, page.Mark); err != nil {
		return 0, err
	}
	code := exitCode(pl)
	early := whole.Early()
	switch {
	case interrupted(ctx):
		code = exitInterrupted
	case len(early) > 0:
		code = exitUnproven
	}
	if !o.json {
		return code, c.print(report.Paragraph("", "", "Written: "+out+", plan "+plan.Fingerprint(st, pl)) + report.StoppedEarly(early))
	}
	doc, err := report.WrittenJSON(&whole.Papers, []string{out}, early)
	if err == nil {
		err = c.print(doc)
	}
	return code, err
}

// gatherReport finds everything the report says.
func gatherReport(ctx context.Context, st *catalog.State, line *progress) (*report.Whole, *plan.Plan, error) {
	papers, plan, err := gather(ctx, st, line)
	if err != nil || !plan.Has {
		return nil, plan, err
	}
	set := solver.Settings{Progress: line.told}
	line.now("working out how it may turn out")
	w := &report.Whole{Papers: *papers, Risk: risk.RiskOf(ctx, st, plan), Sim: risk.Simulate(ctx, st, plan, riskRuns, riskSeed)}
	line.now("working out what more grade costs")
	if w.Curve, err = ask.Frontier(ctx, st, reportStep, set); err != nil {
		return nil, nil, err
	}
	if w.Since, err = since(ctx, st, set); err != nil {
		return nil, nil, err
	}
	line.now("looking for what to find out")
	w.Unknown = &report.Unknown{}
	w.Unknown.All, w.Unknown.Whole, err = ask.InformationValues(ctx, st, plan, set)
	return w, plan, err
}

// reportStep is how finely the curve in the report is drawn, in hundredths of a point.
const reportStep = 100
