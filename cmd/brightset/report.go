package main

import (
	"context"
	"errors"
	"path/filepath"

	"brightset/catalog"
	"brightset/catalog/disk"
	"brightset/cmd/brightset/internal/report"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/risk"

	"github.com/spf13/pflag"
)

var reportCommand = command{
	name: "report", args: "[JOB]", most: 1,
	summary: "write the whole decision as one page: pieces side by side, charts, reasons",
	text: "Writes one HTML file that needs nothing else: no script, no network. It opens from disk and by mail, and " +
		"prints. It has the decision for every slot with all pieces side by side, what more grade costs, where the money " +
		"goes, how it may turn out, what would change the decision, what to find out and to hunt for.",
	setup: func(flags *pflag.FlagSet) action {
		var o reportOptions
		flags.StringVar(&o.out, "out", "", "the `FILE` to write (default: report.html beside the job's file)")
		o.jsonFlag(flags, "write what was written as one JSON document")
		o.limitFlag(flags, "report", "30s", "30s", "no limit")
		return o.run
	},
}

type reportOptions struct {
	question
	out string
}

func (o *reportOptions) run(c *call) (int, error) {
	st, err := o.load(c)
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
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		whole, p, err := gatherReport(ctx, st, line)
		if err != nil {
			return answer{}, err
		}
		if !p.Has {
			return o.noPlan(ctx, line, p, &report.Beside{})
		}
		text, err := whole.Page().HTML()
		if err == nil {
			err = disk.Replace(out, text, page.Mark)
		}
		early := whole.Early()
		return answer{
			code:  exitCode(p),
			early: len(early) > 0,
			text: func() string {
				return report.Paragraph("", "", "Written: "+out+", plan "+plan.Fingerprint(p)) + report.StoppedEarly(early)
			},
			json: func() (string, error) { return report.WrittenJSON(&whole.Papers, []string{out}, early) },
		}, err
	})
}

// gatherReport finds everything the report says.
func gatherReport(ctx context.Context, st *catalog.State, line *progress) (*report.Whole, *plan.Plan, error) {
	set := line.settings()
	w := &report.Whole{}
	papers, p, err := gather(ctx, st, line, 0, func(papers *report.Papers) []part {
		p := papers.Plan
		return []part{
			func(ctx context.Context) error {
				w.Risk, w.Sim = risk.RiskOf(ctx, p), risk.Simulate(ctx, p, riskRuns, riskSeed)
				return nil
			},
			func(ctx context.Context) (err error) {
				w.Since, err = since(ctx, st, set)
				return err
			},
			func(ctx context.Context) (err error) {
				w.Curve, err = ask.Frontier(ctx, st, reportStep, set)
				return err
			},
			func(ctx context.Context) (err error) {
				w.Unknown, err = findOut(ctx, line, p)
				return err
			},
			func(ctx context.Context) (err error) {
				papers.Rejected, papers.RejectedWhole, err = ask.RejectedPieces(ctx, p, false, set)
				return err
			},
		}
	})
	if err != nil || !p.Has {
		return nil, p, err
	}
	quoteTo(papers, w.Sim)
	w.Papers = *papers
	return w, p, nil
}

// reportStep is how finely the curve in the report is drawn, in hundredths of a point.
const reportStep = 100
