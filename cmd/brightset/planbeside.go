package main

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// longestStrip is how long is looked for what stripping may show, where nobody said how long:
// it takes a question for every piece that is plated.
const longestStrip = 20 * time.Second

// lookBeside finds, with the time that is left, what stands beside the plan: none of it
// depends on the rest of it.
func (o *planOptions) lookBeside(ctx context.Context, line *progress, p *plan.Plan, beside *report.Beside) error {
	if o.sharedSpares {
		return nil
	}
	line.now("asking what locks, stripping and other plans would change")
	set := line.settings()
	parts := []func() error{func() (err error) {
		beside.Bindings, err = ask.Bindings(ctx, p, set)
		return err
	}}
	if !o.best {
		parts = append(parts, func() (err error) {
			beside.Strip, err = strip(ctx, p, set)
			return err
		})
	}
	if o.others > 0 {
		parts = append(parts, func() (err error) {
			beside.Others, err = ask.Others(ctx, p, o.others, o.differ, set)
			return err
		})
	}
	err := parallel.Parts(context.WithoutCancel(ctx), parts...) // where time is up each says so
	beside.Screen = screenOf(ctx, line, p, beside.Since)
	return err
}

// whole says whether more is asked for than the first screen.
func (o *planOptions) whole() bool {
	return o.full || o.json || o.others > 0
}

// since is what a plan is compared with: the one kept last; or, where things were
// recorded and none was kept, the plan of the files alone.
func since(ctx context.Context, st *catalog.State, set solver.Settings) (*report.Since, error) {
	switch {
	case st.Kept != nil:
		return &report.Since{Lines: st.Kept.Lines, Seq: st.Kept.Seq, Day: st.Kept.On.Format(time.DateOnly),
			Called: "the plan kept on " + st.Kept.On.Format(time.DateOnly)}, nil
	case st.Record == nil || len(st.Record.Entries) == 0:
		return nil, nil
	}
	first, err := catalog.Load(st.Job.File, catalog.Options{NothingRecorded: true})
	if err != nil {
		return nil, nil // what was recorded has made a whole job of it
	}
	p, err := program.Solve(ctx, first, set)
	if err != nil || !p.Has && p.Status == solver.Infeasible {
		return nil, err
	}
	if p.Status == solver.Stopped {
		return &report.Since{Early: true}, nil // another one may be the first
	}
	return &report.Since{Lines: plan.KeptLines(p), Called: "the first plan, before anything was recorded"}, nil
}

// strip looks for the prices at which to stop, in half of the time, and for what is worth
// stripping first: of that there is no end in a large set.
func strip(ctx context.Context, p *plan.Plan, set solver.Settings) (*report.Strip, error) {
	ctx, done := program.AtMost(ctx, longestStrip)
	defer done()
	half, halfDone := program.Portion(ctx, 0.5)
	defer halfDone()
	stop, all, err := ask.StopPrices(half, p, set)
	if err != nil {
		return nil, err
	}
	first, rest, err := ask.StripFirst(ctx, p, set)
	return &report.Strip{First: first, Stop: stop, Whole: all && rest}, err
}
