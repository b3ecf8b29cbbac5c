package main

import (
	"context"
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"

	"github.com/spf13/pflag"
)

var whyCommand = command{
	name: "why", args: "SLOT [JOB]", most: 2,
	summary: "say why a slot is filled as it is, and what else would cost",
	text: "Shows every choice for a slot with what the whole set comes to if it is taken, the cheapest first, and where " +
		"the difference comes from; the figures at which the decision turns; and what is out, and why." +
		"\nWith --instead it shows the set that follows from another choice, and what changes elsewhere.",
	setup: func(flags *pflag.FlagSet) action {
		var o whyOptions
		flags.StringVar(&o.instead, "instead", "", "show the set with `PIECE` in the slot; PIECE:WORK or PIECE:WORK:PLATER "+
			"to say what is done to it")
		o.jsonFlag(flags, "write the answer as one JSON document")
		o.limitFlag(flags, "why SLOT", "10s", "10s", longestAsk.String())
		return o.run
	},
}

type whyOptions struct {
	question
	instead string
}

func (o *whyOptions) run(c *call) (int, error) {
	if len(c.args) == 0 {
		return 0, usageError{"which slot? type: brightset why SLOT"}
	}
	id := c.args[0]
	c.args = c.args[1:]
	st, err := o.load(c)
	if err != nil {
		return 0, err
	}
	slot, err := slotNamed(st, id)
	if err != nil {
		return 0, err
	}
	if o.instead != "" {
		return o.otherwise(c, st, slot)
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		line.now("asking what each way to fill the slot would cost")
		ctx, cancel := program.AtMost(ctx, longestAsk)
		defer cancel()
		w, err := ask.AskWhy(ctx, st, slot, line.settings())
		if err != nil {
			return answer{}, err
		}
		if !w.Advised.Has {
			return o.noPlan(ctx, line, w.Advised, &report.Beside{})
		}
		return answer{
			early: w.Stopped,
			text:  func() string { return report.Why(w) },
			json:  func() (string, error) { return report.WhyJSON(w) },
		}, nil
	})
}

// otherwise shows the set with another choice in the slot.
func (o *whyOptions) otherwise(c *call, st *catalog.State, slot int) (int, error) {
	wanted, err := o.wanted(st, slot)
	if err != nil {
		return 0, err
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		line.now("asking what that would cost instead")
		advised, plan, err := ask.Instead(ctx, st, slot, wanted, line.settings())
		if err != nil {
			return answer{}, err
		}
		if !advised.Has || (!plan.Has && plan.Status != solver.Infeasible) {
			return o.noPlan(ctx, line, plan, &report.Beside{})
		}
		return answer{
			code: exitCode(plan),
			text: func() string { return o.insteadText(slot, advised, plan) },
			json: func() (string, error) { return report.InsteadJSON(slot, advised, plan) },
		}, nil
	})
}

func (o *whyOptions) insteadText(slot int, advised, plan *plan.Plan) string {
	if plan.Has {
		return report.Instead(slot, advised, plan)
	}
	id := advised.Of.Slots[slot].ID
	return report.Paragraph("", "", fmt.Sprintf("No set with %s in %s meets all demands: proven. Why: brightset why %s",
		o.instead, id, id))
}

// wanted reads what --instead asks for. A piece that can't be used so is a mistake
// on the command line.
func (o *whyOptions) wanted(st *catalog.State, slot int) (func(*plan.Choice) bool, error) {
	part := strings.Split(o.instead, ":")
	for _, prefix := range []string{"job", "shop"} { // keys of pieces whose id stands in both files
		if part[0] == prefix && len(part) > 1 {
			part = append([]string{part[0] + ":" + part[1]}, part[2:]...)
		}
	}
	if len(part) > 3 {
		return nil, usageError{fmt.Sprintf("%q has too many parts; type: --instead PIECE:WORK:PLATER", o.instead)}
	}
	part = append(part, "", "")[:3]
	wanted := func(c *plan.Choice) bool {
		return plan.PieceName(st, c.Piece) == part[0] && (part[1] == "" || strings.EqualFold(c.Work, part[1])) &&
			(part[2] == "" || (c.Plated() && st.Platers[c.Plater].ID == part[2]))
	}
	var names []string
	for _, all := range choice.Choices(st)[slot : slot+1] {
		for i := range all {
			if wanted(&all[i]) {
				return wanted, nil
			}
			name := plan.PieceName(st, all[i].Piece)
			if len(part[1]) > 0 {
				name += ":" + all[i].Work
			}
			if len(part[2]) > 0 && all[i].Plated() {
				name += ":" + st.Platers[all[i].Plater].ID
			}
			names = append(names, name)
		}
	}
	return nil, usageError{fmt.Sprintf("nothing like %q can be done for slot %q%s", o.instead, st.Slots[slot].ID,
		hint(o.instead, names, "brightset check --slot "+st.Slots[slot].ID+", which shows all"))}
}
