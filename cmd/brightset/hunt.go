package main

import (
	"context"

	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/program"
	"brightset/solver"

	"github.com/spf13/pflag"
)

var huntCommand = command{
	name: "hunt", args: "[JOB]", most: 1,
	summary: "say what to look out for, and the most to pay for it",
	text: "For every slot and kind of find (unused, a reproduction, a sound original for plating) it works out what the " +
		"whole set would cost less with it: that is the most it is worth paying, freight included." +
		"\nThe list is made to be carried: tick off what has been found.",
	setup: func(flags *pflag.FlagSet) action {
		var o huntOptions
		o.jsonFlag(flags, "write the answer as one JSON document")
		flags.StringVar(&o.slot, "slot", "", "look at this `SLOT` only")
		o.limitFlag(flags, "hunt", "10s", "10s", longestAsk.String())
		return o.run
	},
}

type huntOptions struct {
	question
	slot string
}

func (o *huntOptions) run(c *call) (int, error) {
	st, err := o.load(c)
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
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		line.now("asking what each find would be worth")
		ctx, cancel := program.AtMost(ctx, longestAsk)
		defer cancel()
		h, err := ask.Hunt(ctx, st, slots, line.settings())
		if err != nil {
			return answer{}, err
		}
		if !h.Plan.Has && h.Plan.Status != solver.Infeasible {
			return o.noPlan(ctx, line, h.Plan, &report.Beside{})
		}
		return answer{
			early: h.Plan.Status == solver.Stopped || !h.Whole,
			text:  func() string { return report.Hunt(h) },
			json:  func() (string, error) { return report.HuntJSON(h) },
		}, nil
	})
}
