package main

import (
	"context"
	"time"

	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/solver"

	"github.com/spf13/pflag"
)

var huntCommand = command{
	name: "hunt", args: "[JOB]", most: 1,
	summary: "say what to look out for, and the most to pay for it",
	text: "For every slot and kind of find (unused, a reproduction, a sound original for plating) it works out what the whole set would cost less with it: that is the most it is worth paying, freight included." +
		"\nThe list is made to be carried: tick off what has been found.",
	setup: func(flags *pflag.FlagSet) action {
		var o huntOptions
		flags.BoolVar(&o.json, "json", false, "write the answer as one JSON document")
		flags.StringVar(&o.slot, "slot", "", "look at this `SLOT` only")
		flags.DurationVar(&o.limit, "time-limit", 0, "stop after `TIME`, such as 10s, with what was found so far (default: 28s)")
		return o.run
	},
}

type huntOptions struct {
	json  bool
	slot  string
	limit time.Duration
}

// longestHunt is how long finds are looked at, unless the user set a limit: each takes a
// solve.
const longestHunt = 28 * time.Second

// huntTime ends a hunt where nothing else does.
func huntTime(ctx context.Context) (context.Context, context.CancelFunc) {
	if _, limited := ctx.Deadline(); limited {
		return ctx, func() {}
	}
	return context.WithTimeout(ctx, longestHunt)
}

func (o *huntOptions) run(c *call) (int, error) {
	if err := goodLimit(o.limit, "brightset hunt --time-limit 10s"); err != nil {
		return 0, err
	}
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	var slots []int
	if o.slot != "" {
		s, err := slotNamed(st, o.slot)
		if err != nil {
			return 0, err
		}
		slots = []int{s}
	}
	ctx, stop := searching(o.limit)
	defer stop()
	line := newProgress(c.err)
	within, cancel := huntTime(ctx)
	defer cancel()
	h, err := ask.Hunt(within, st, slots, solver.Settings{Progress: line.told})
	line.done()
	switch {
	case err != nil:
		return 0, err
	case !h.Plan.Has && h.Plan.Status != solver.Infeasible:
		return (&planOptions{json: o.json}).answer(ctx, c, st, h.Plan)
	}
	code := exitAnswered
	switch {
	case interrupted(ctx):
		code = exitInterrupted
	case h.Plan.Status == solver.Stopped || !h.Whole:
		code = exitUnproven
	}
	if !o.json {
		return code, c.print(report.Hunt(st, h))
	}
	text, err := report.HuntJSON(st, h)
	if err == nil {
		err = c.print(text)
	}
	return code, err
}
