package main

import (
	"context"
	"fmt"
	"time"

	"brightset/catalog"
	"brightset/catalog/disk"
	"brightset/cmd/brightset/internal/record"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"

	"github.com/spf13/pflag"
)

var planCommand = command{
	name: "plan", args: "[JOB ...]", most: mostJobs,
	summary: "find the cheapest set of choices that meets the target",
	text: "Decides for every slot which piece hangs there, what is done to it and by whom, and what is held in reserve; proves that nothing on the same figures is cheaper; and lists what to send, buy, keep and watch." +
		"\nCtrl-C stops the search and shows the best plan found so far. For what the locks and bans cost, and for other plans, it searches for 20 s each at most, unless --time-limit says otherwise." +
		"\nOf several jobs of one shop it makes one plan: lots, freights and bundles are shared, a common spare goes where it saves most, and each job keeps its own target, date and budget, the budget even if it had to pay all its charges itself. It says what each saves against planning alone, and splits what they share.",
	setup: func(flags *pflag.FlagSet) action {
		var o planOptions
		flags.BoolVar(&o.json, "json", false, "write the plan as one JSON document")
		flags.BoolVar(&o.best, "best", false, "the best finish that the budget allows, and of those the cheapest, instead of the least money")
		flags.IntVar(&o.others, "others", 0, "also show the `N` cheapest plans that differ, and the one that does least, the best finish and, with locks, the plan without them")
		flags.IntVar(&o.differ, "differ", 2, "with --others: in how many `SLOTS` plans differ at least, from the advised one and from each other; pieces that change places don't count")
		flags.BoolVar(&o.keep, "keep", false, "keep this plan as the one that is followed: later ones say what changed since, and why")
		flags.BoolVar(&o.strip, "strip", false, "look for what to strip first and for the prices at which to stop in a set of more than 30 slots too, which takes a while")
		flags.BoolVar(&o.oneForTwo, "one-for-two", false, "hold one spare behind two slots where that is cheaper: if both fail, one of them is rescued; shown against holding it for one")
		flags.StringVar(&o.mps, "mps", "", "also write the program to `FILE` as free MPS, for another solver; with - only that, instead of the plan")
		flags.DurationVar(&o.limit, "time-limit", 0, "stop after `TIME`, such as 30s or 2m, with what was found so far (default: no limit)")
		flags.Float64Var(&o.within, "within", 0.1, "with several jobs: stop at a plan that is proven to be within `PERCENT` of the cheapest; 0 asks for the whole proof")
		return o.run
	},
}

type planOptions struct {
	json      bool
	best      bool
	keep      bool
	strip     bool
	others    int
	differ    int
	oneForTwo bool
	mps       string
	limit     time.Duration
	within    float64 // percent
}

// slotsStripped is the size of a set up to which what stripping may show is looked for
// unasked: it takes a solve for every piece that is plated.
const slotsStripped = 30

// mostOthers is as many other plans as one would ever look through.
const mostOthers = 50

// check says what is wrong with the flags.
func (o *planOptions) check() error {
	switch {
	case o.limit < 0:
		return usageError{fmt.Sprintf("a time limit of %q is negative; type: brightset plan --time-limit 30s", o.limit.String())}
	case o.others < 0 || o.others > mostOthers:
		return usageError{fmt.Sprintf("%q other plans are not between 0 and %d; type: brightset plan --others 3", fmt.Sprint(o.others), mostOthers)}
	case o.differ < 1:
		return usageError{fmt.Sprintf("plans that differ in %q slots are no others; type: brightset plan --others 3 --differ 2", fmt.Sprint(o.differ))}
	case o.best && o.others > 0:
		return usageError{"--others stands beside the cheapest plan, and shows the best finish too; type it without --best: brightset plan --others 3"}
	}
	return o.checkOneForTwo()
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
	ctx, stop := searching(o.limit)
	defer stop()
	if o.keep {
		return o.solveAndKeep(ctx, c)
	}
	return o.solveAndAnswer(ctx, c, st)
}

// solveAndKeep keeps what it answers.
func (o *planOptions) solveAndKeep(ctx context.Context, c *call) (int, error) {
	d, err := openDesk(c)
	if err != nil {
		return 0, err
	}
	p, beside, err := o.solve(ctx, c, d.State)
	if err != nil {
		return 0, err
	}
	code, err := o.answerBeside(ctx, c, d.State, p, beside)
	if err != nil || !p.Has {
		return code, err
	}
	if interrupted(ctx) {
		return notKept(c)
	}
	return code, keepPlan(c, d, p)
}

// notKept says that a search that the user broke off decides nothing. What was found by
// the end of the time he gave it is what he asked for, and is kept.
func notKept(c *call) (int, error) {
	fmt.Fprintln(c.err, "Interrupted: nothing is kept; the plan kept before still is.")
	return exitInterrupted, nil
}

// keepPlan records a plan as the one that is followed.
func keepPlan(c *call, d *catalog.Recorder, p *plan.Plan) error {
	st, err := d.Record(record.Keep(d, p))
	if err == nil {
		fmt.Fprintf(c.err, "Kept as the plan that is followed (entry %d); brightset record undo takes that back.\n", last(st))
	}
	return err
}

func (o *planOptions) solveAndAnswer(ctx context.Context, c *call, st *catalog.State) (int, error) {
	p, beside, err := o.solve(ctx, c, st)
	if err != nil {
		return 0, err
	}
	code, err := o.answerBeside(ctx, c, st, p, beside)
	if code == exitAnswered && interrupted(ctx) {
		code = exitInterrupted // while looking at what stands beside the plan
	}
	return code, err
}

// solve finds the plan, and with the time that is left what stands beside it.
func (o *planOptions) solve(ctx context.Context, c *call, st *catalog.State) (*plan.Plan, *report.Beside, error) {
	if o.oneForTwo {
		return o.solveOneForTwo(ctx, c, st)
	}
	line := newProgress(c.err)
	defer line.done()
	set := solver.Settings{Progress: line.told}
	find := program.Solve
	if o.best {
		find = program.Best
	}
	beside := &report.Beside{Differ: o.differ}
	p, err := find(ctx, st, set)
	if err != nil || !p.Has {
		return p, beside, err
	}
	if beside.Bindings, err = ask.Bindings(ctx, st, p, set); err == nil && o.others > 0 {
		beside.Others, err = ask.Others(ctx, st, p, o.others, o.differ, set)
	}
	if err == nil {
		beside.Since, err = since(ctx, st, set)
	}
	if err == nil && !o.best && (o.strip || len(st.Slots) <= slotsStripped) {
		beside.Strip, err = strip(ctx, st, p, set)
	}
	return p, beside, err
}

// since is what a plan is compared with: the one kept last; or, where things were
// recorded and none was kept, the plan of the files alone.
func since(ctx context.Context, st *catalog.State, set solver.Settings) (*report.Since, error) {
	switch {
	case st.Kept != nil:
		return &report.Since{Lines: st.Kept.Lines, Seq: st.Kept.Seq, Day: st.Kept.On.Format(time.DateOnly), Called: "the plan kept on " + st.Kept.On.Format(time.DateOnly)}, nil
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
	return &report.Since{Lines: plan.KeptLines(first, p), Called: "the first plan, before anything was recorded"}, nil
}

// strip looks for what is worth stripping first, and the prices at which to stop.
func strip(ctx context.Context, st *catalog.State, p *plan.Plan, set solver.Settings) (*report.Strip, error) {
	s := &report.Strip{}
	first, all, err := ask.StripFirst(ctx, st, p, set)
	if err != nil {
		return nil, err
	}
	stop, rest, err := ask.StopPrices(ctx, st, p, set)
	s.First, s.Stop, s.Whole = first, stop, all && rest
	return s, err
}

// answer prints the plan, or why there is none, and gives the exit code.
func (o *planOptions) answer(ctx context.Context, c *call, st *catalog.State, p *plan.Plan) (int, error) {
	return o.answerBeside(ctx, c, st, p, &report.Beside{})
}

func (o *planOptions) answerBeside(ctx context.Context, c *call, st *catalog.State, p *plan.Plan, beside *report.Beside) (int, error) {
	code := exitCode(p)
	if p.Status == solver.Infeasible {
		return code, o.nothingFits(ctx, c, st, p)
	}
	if o.json {
		text, err := report.PlanJSON(st, p, beside)
		if err == nil {
			err = c.print(text)
		}
		return code, err
	}
	if !p.Has {
		fmt.Fprintf(c.err, "brightset: stopped (%s) before any plan was found; give it longer: brightset plan --time-limit 5m\n", p.Stop)
		return code, nil
	}
	return code, c.print(report.Plan(st, p, beside))
}

func exitCode(p *plan.Plan) int {
	switch {
	case p.Status == solver.Optimal:
		return exitAnswered
	case p.Status == solver.Infeasible:
		return exitInfeasible
	case p.Stop == solver.Cancelled:
		return exitInterrupted
	case p.Has:
		return exitUnproven
	}
	return exitFailed
}

// mpsMark is how a program written by --mps begins.
const mpsMark = "NAME brightset FREE\n"

// writeProgram writes the integer program, with all lines before any is left
// out, to a file or with "-" as the answer.
func writeProgram(c *call, st *catalog.State, path string) error {
	if path == "-" {
		if err := program.BuildAll(st).Problem.WriteMPS(c.out); err != nil {
			return fmt.Errorf("can't write the answer: %w", err)
		}
		return nil
	}
	if err := disk.Answer(path); err != nil {
		return usageError{err.Error() + "; type: --mps program.mps"}
	}
	return disk.ReplaceBy(path, mpsMark, program.BuildAll(st).Problem.WriteMPS)
}
