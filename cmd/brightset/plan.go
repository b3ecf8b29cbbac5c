package main

import (
	"context"
	"fmt"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/record"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/plan"
	"brightset/model/program"

	"github.com/spf13/pflag"
)

var planCommand = command{
	name: "plan", args: "[JOB ...]", most: mostJobs,
	summary: "find the cheapest set of choices that meets the target",
	text: "Decides for every slot which piece hangs there, what is done to it and by whom, and what is held in reserve; " +
		"proves that nothing on the same figures is cheaper; and lists what to send, buy, keep and watch." +
		"\nCtrl-C stops the search and shows the best plan found so far. For what the locks and bans cost, for prices at " +
		"which to stop and for other plans, it searches for 20 s each at most, unless --time-limit says otherwise." +
		"\nOf several jobs of one shop it makes one plan: lots, freights and bundles are shared, a common spare goes where " +
		"it saves most, and each job keeps its own target, date and budget, the budget even if it had to pay all its " +
		"charges itself. It says what each saves against planning alone, and splits what they share.",
	setup: func(flags *pflag.FlagSet) action {
		var o planOptions
		o.jsonFlag(flags, "write the plan as one JSON document")
		flags.BoolVar(&o.full, "full", false, "show everything: every slot with its figures, lots, purchases, what is "+
			"held in reserve and left over, prices at which to stop, and what the plan rests on")
		flags.BoolVar(&o.best, "best", false, "the best finish that the budget allows, and of those the cheapest, instead "+
			"of the least money")
		flags.IntVar(&o.others, "others", 0, "also show the `N` cheapest plans that differ, and the one that does least, "+
			"the best finish and, with locks, the plan without them")
		flags.IntVar(&o.differ, "differ", 2, "with --others: in how many `SLOTS` plans differ at least, from the advised "+
			"one and from each other; pieces that change places don't count")
		flags.BoolVar(&o.keep, "keep", false, "keep this plan as the one that is followed: later ones say what changed "+
			"since, and why")
		flags.BoolVar(&o.sharedSpares, "one-for-two", false,
			"hold one spare behind two slots where that is cheaper: if both fail, one of them is rescued; "+
				"shown against holding it for one")
		flags.StringVar(&o.mps, "mps", "", "also write the program to `FILE` as free MPS, for another solver; with - only "+
			"that, instead of the plan")
		o.limitFlag(flags, "plan", "30s", "30s or 2m", "no limit")
		o.within.flag(flags)
		return o.run
	},
}

type planOptions struct {
	question
	full         bool
	keep         bool
	others       int
	differ       int
	sharedSpares bool
	mps          string
	within       within
}

// mostOthers is as many other plans as one would ever look through.
const mostOthers = 50

// check says what is wrong with the flags.
func (o *planOptions) check() error {
	if err := o.question.check(); err != nil {
		return err
	}
	switch {
	case o.others < 0 || o.others > mostOthers:
		return usageError{fmt.Sprintf("%q other plans are not between 0 and %d; type: brightset plan --others 3",
			fmt.Sprint(o.others), mostOthers)}
	case o.differ < 1:
		return usageError{fmt.Sprintf("plans that differ in %q slots are no others; type: brightset plan --others 3 "+
			"--differ 2", fmt.Sprint(o.differ))}
	case o.best && o.others > 0:
		return usageError{"--others stands beside the cheapest plan, and shows the best finish too; type it without " +
			"--best: brightset plan --others 3"}
	case o.within.given() && (o.best || o.sharedSpares):
		return usageError{"--within is about the cheapest plan: type it without --best and --one-for-two: " +
			"brightset plan --within 0.1"}
	}
	if err := o.within.check("plan"); err != nil {
		return err
	}
	return o.checkSharedSpares()
}

func (o *planOptions) run(c *call) (int, error) {
	if err := o.check(); err != nil {
		return 0, err
	}
	if len(c.args) > 1 {
		return o.together(c)
	}
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	if o.mps != "" {
		if err := writeProgram(c, st, o.mps); err != nil || o.mps == "-" {
			return exitAnswered, err
		}
	}
	var d *catalog.Recorder
	if o.keep {
		if d, err = openRecorder(c); err != nil {
			return 0, err
		}
		st = d.State
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		p, beside, err := o.solve(ctx, line, st)
		if err != nil {
			return answer{}, err
		}
		if !p.Has {
			return o.noPlan(ctx, line, p, beside)
		}
		a := answer{code: exitCode(p)}
		if o.keep {
			a.keep = func() error { return keepPlan(c, d, p) }
		}
		if !o.whole() {
			beside.Screen = screenOf(ctx, line, p, beside.Since)
			a.text = func() string { return report.FirstScreen(p, beside.Screen) }
			return a, nil
		}
		if o.json { // one document
			err = o.lookBeside(ctx, line, p, beside)
			a.json = func() (string, error) { return report.PlanJSON(p, beside) }
			return a, err
		}
		first, rest := report.PlanByParts(p, beside.Since)
		a.text = func() string { return first }
		a.more = func(ctx context.Context, line *progress) (string, error) {
			if err := o.lookBeside(ctx, line, p, beside); err != nil {
				return "", err
			}
			return rest(beside), nil
		}
		return a, nil
	})
}

// notKept says that a search that the user broke off decides nothing. What was found by
// the end of the time he gave it is what he asked for, and is kept.
func notKept(c *call) (int, error) {
	fmt.Fprintln(c.err, "Interrupted: nothing is kept; the plan kept before still is.")
	return exitInterrupted, nil
}

// keepPlan records a plan as the one that is followed.
func keepPlan(c *call, d *catalog.Recorder, p *plan.Plan) error {
	st, err := d.Record(record.Keep(d, p, nil))
	if err == nil {
		fmt.Fprintf(c.err, "Kept as the plan that is followed (entry %d); brightset record undo takes that back.\n", last(st))
	}
	return err
}

// solve finds the plan, and what it is compared with.
func (o *planOptions) solve(ctx context.Context, line *progress,
	st *catalog.State) (*plan.Plan, *report.Beside, error) {
	if o.sharedSpares {
		return solveSharedSpares(ctx, line, st)
	}
	set := line.settings()
	find := program.Solve
	if o.best {
		find = program.Best
	}
	beside := &report.Beside{Differ: o.differ}
	near := set // the search for the plan alone: what is asked beside it is proven
	near.Gap = o.within.gap(1)
	p, err := find(ctx, st, near)
	if err != nil || !p.Has {
		return p, beside, err
	}
	beside.Since, err = since(ctx, st, set)
	return p, beside, err
}
