package main

import (
	"context"
	"fmt"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/solver"

	"github.com/spf13/pflag"
)

// question is what the commands that search have in common: how the answer is written, and
// how long it may take.
type question struct {
	form
	limit time.Duration // 0: none
	typed string        // how a good limit is typed
	best  bool          // the best finish is asked for, so that the mean asked for plays no part
}

// form is how an answer is written: in words, unless one of these is asked for.
type form struct{ json, csv bool }

// answer is what was found, in every form that its command knows.
type answer struct {
	code  int  // as long as nobody broke it off
	early bool // not everything was looked at
	aside string
	text  func() string // nil: not a word, but for what is said aside
	json  func() (string, error)
	csv   func() (string, error)
	// more finds what stands beside the answer, in words, once the answer itself is shown;
	// nil where there is no more.
	more func(context.Context, *progress) (string, error)
	keep func() error // what is kept of it once it is shown, unless it was broken off
}

// jsonFlag declares --json.
func (f *form) jsonFlag(flags *pflag.FlagSet, text string) {
	flags.BoolVar(&f.json, "json", false, text)
}

// longestAsk is how long is asked, where the user set no limit, what takes a solve for every answer:
// between two sums most of them are known long before they are to the cent.
const longestAsk = 28 * time.Second

// limitFlag declares --time-limit of a command; good is a limit as it is typed, such are
// examples of it, and unset is what counts without one.
func (q *question) limitFlag(flags *pflag.FlagSet, command, good, such, unset string) {
	q.typed = "brightset " + command + " --time-limit " + good
	flags.DurationVar(&q.limit, "time-limit", 0,
		"stop after `TIME`, such as "+such+", with what was found so far (default: "+unset+")")
}

// check refuses a time limit below nothing.
func (q *question) check() error {
	if q.limit < 0 {
		return usageError{fmt.Sprintf("a time limit of %q is negative; type: %s", q.limit.String(), q.typed)}
	}
	return nil
}

// load checks the limit and reads the job named by the first argument.
func (q *question) load(c *call) (*catalog.State, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	return load(c)
}

// search finds the answer, until it has it all, the time is up or the user has had enough,
// and shows how far it has come; then it shows the answer, and keeps what is to be kept.
func (q *question) search(c *call, find func(context.Context, *progress) (answer, error)) (int, error) {
	ctx, stop := searching(q.limit)
	defer stop()
	a, err := found(ctx, c, find)
	if err != nil {
		return 0, err
	}
	if err = q.show(c, a); err == nil && a.more != nil {
		err = more(ctx, c, a.more)
	}
	code := a.exit(ctx)
	if err != nil || a.keep == nil {
		return code, err
	}
	if interrupted(ctx) {
		return notKept(c)
	}
	return code, a.keep()
}

// found runs a search under a line of progress.
func found(ctx context.Context, c *call, find func(context.Context, *progress) (answer, error)) (answer, error) {
	line := newProgress(c.err)
	defer line.done()
	return find(ctx, line)
}

// more looks for what follows an answer that is shown already, and shows that.
func more(ctx context.Context, c *call, find func(context.Context, *progress) (string, error)) error {
	line := newProgress(c.err)
	text, err := find(ctx, line)
	line.done()
	if err != nil {
		return err
	}
	if inked(c.out) {
		text = ink(text)
	}
	return c.print(text)
}

// exit is the answer's exit code: a user who broke off knows that there may be more, and
// so does a script whose limit was too short.
func (a *answer) exit(ctx context.Context) int {
	switch {
	case a.code != exitAnswered && a.code != exitUnproven:
		return a.code // no plan, so that nothing was cut short
	case interrupted(ctx):
		return exitInterrupted
	case a.early:
		return exitUnproven
	}
	return a.code
}

// show writes the answer as it was asked for.
func (f form) show(c *call, a answer) error {
	text, err := "", error(nil)
	switch {
	case f.json:
		text, err = a.json()
	case f.csv:
		text, err = a.csv()
	case a.text != nil:
		if text = a.text(); inked(c.out) {
			text = ink(text)
		}
	}
	fmt.Fprint(c.err, a.aside)
	if err != nil || text == "" {
		return err
	}
	return c.print(text)
}

// noPlan is the answer to whatever was asked where there is no plan: why nothing meets the
// demands, and what could be given up; or that there was no time to find one.
func (q *question) noPlan(ctx context.Context, line *progress, p *plan.Plan, beside *report.Beside) (answer, error) {
	if p.Status == solver.Infeasible {
		return q.nothingFits(ctx, line, p)
	}
	a := answer{code: exitCode(p), json: func() (string, error) { return report.PlanJSON(p, beside) }}
	switch {
	case q.json:
	case interrupted(ctx):
		a.aside = "brightset: stopped by you before any plan was found; nothing is changed\n"
	default:
		a.aside = fmt.Sprintf("brightset: stopped (%s) before any plan was found; give it longer: "+
			"brightset plan --time-limit 5m\n", p.Stop)
	}
	return a, nil
}

func (q *question) nothingFits(ctx context.Context, line *progress, p *plan.Plan) (answer, error) {
	asked := p.Of
	if q.best {
		asked = p.Of.Clone()
		asked.Job.Target.Mean = catalog.Val[catalog.Centi]{}
	}
	line.now("looking for what can't be met")
	conflict, err := ask.Explain(ctx, asked, line.settings())
	return answer{
		code: exitInfeasible,
		text: func() string { return report.Infeasible(p, conflict) },
		json: func() (string, error) { return report.InfeasibleJSON(p, conflict) },
	}, err
}

// exitCode is what a plan by itself is answered with.
func exitCode(p *plan.Plan) int {
	switch {
	case p.Status == solver.Optimal, p.Has && p.Stop == solver.CloseEnough:
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
