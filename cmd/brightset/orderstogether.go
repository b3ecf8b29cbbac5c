package main

import (
	"context"
	"time"

	"brightset/cmd/brightset/internal/report"
	"brightset/model/joint"
	"brightset/model/paper"
	"brightset/model/plan"
)

// together writes the papers of several jobs of one shop, planned at once.
func (o *ordersOptions) together(c *call) (int, error) {
	jobs, err := jobsOfOneShop(c.args)
	if err != nil {
		return 0, err
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		set := line.settings()
		set.Gap = o.within.gap(len(jobs))
		out, err := joint.Solve(ctx, jobs, set)
		if err != nil {
			return answer{}, err
		}
		if !out.Has {
			return noneTogether(ctx, out)
		}
		papers := o.gatherTogether(ctx, out)
		written, err := writePages(o.folder(jobs[0], out.Fingerprint()), papers.Pages())
		a := answer{
			code: jointCode(out),
			text: func() string { return papers.Written(written) },
			json: func() (string, error) { return papers.WrittenJSON(written) },
		}
		if o.keep {
			a.keep = func() error { return keepAll(c, out) }
		}
		return a, err
	})
}

// gatherTogether makes the papers of each job, with its quote where the owner gets one.
func (o *ordersOptions) gatherTogether(ctx context.Context, out *plan.Joint) *report.JointPapers {
	t := &report.JointPapers{Plan: out}
	for j := range out.Jobs {
		job := &out.Jobs[j]
		p := &report.Papers{Plan: job.Plan, Date: now().Format(time.DateOnly), Photo: photos(job.State), Spec: o.spec,
			Unfitted: o.unfitted}
		if sim := setAside(ctx, job.Plan); sim != nil {
			if nine, whole := nineOf(sim); whole {
				p.Sums = paper.OwnerQuoteOf(paper.Owed(out, j), nil, false, max(0, nine-job.Plan.Outlay))
			}
		}
		t.Jobs = append(t.Jobs, p)
	}
	for _, p := range t.Jobs {
		p.Among = t.Jobs
	}
	return t
}
