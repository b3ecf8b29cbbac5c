package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/joint"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// mostJobs is how many jobs plan takes.
const mostJobs = 200

// longestLook is how long is looked for what only explains.
const longestLook = 8 * time.Second

// checkTogether says what is wrong with the flags where several jobs are named.
func (o *planOptions) checkTogether() error {
	for _, f := range []struct {
		name string
		set  bool
	}{{"--best", o.best}, {"--others", o.others > 0}, {"--mps", o.mps != ""},
		{"--one-for-two", o.sharedSpares}} {
		if f.set {
			return usageError{fmt.Sprintf("%s is about one job; type it with each job by itself: brightset plan %s JOB", f.name,
				f.name)}
		}
	}
	return nil
}

// together plans several jobs of one shop at once.
func (o *planOptions) together(c *call) (int, error) {
	if err := o.checkTogether(); err != nil {
		return 0, err
	}
	jobs, err := jobsOfOneShop(c.args)
	if err != nil {
		return 0, err
	}
	return o.search(c, func(ctx context.Context, line *progress) (answer, error) {
		set := line.settings()
		set.Gap = o.within.gap(len(jobs))
		together, err := joint.Solve(ctx, jobs, set)
		if err != nil {
			return answer{}, err
		}
		if !together.Has {
			return noneTogether(ctx, together)
		}
		a := answer{code: jointCode(together), text: func() string { return report.TogetherScreen(together) }}
		if o.whole() {
			worths := worths(ctx, together)
			a.text = func() string { return report.Together(together, worths) }
			a.json = func() (string, error) { return report.TogetherJSON(together, worths) }
		}
		if o.keep {
			a.keep = func() error { return keepAll(c, together) }
		}
		return a, nil
	})
}

// worths looks for what the pieces that several jobs want are worth to each.
func worths(ctx context.Context, together *plan.Joint) []joint.Worth {
	ctx, done := program.AtMost(ctx, longestLook)
	defer done()
	list, err := joint.Worths(ctx, together, solver.Settings{})
	if err != nil {
		return nil // it only explains
	}
	return list
}

func jointCode(joint *plan.Joint) int {
	switch {
	case joint.Has && (joint.Status == solver.Optimal || joint.Stop == solver.CloseEnough):
		return exitAnswered
	case joint.Status == solver.Infeasible:
		return exitInfeasible
	case joint.Stop == solver.Cancelled:
		return exitInterrupted
	case joint.Has:
		return exitUnproven
	}
	return exitFailed
}

// loadAll reads all jobs, and reports the mistakes of all, each once.
func loadAll(paths []string) ([]*catalog.State, error) {
	var jobs []*catalog.State
	all := &catalog.Mistakes{}
	for _, arg := range paths {
		path, err := jobPathOf(arg)
		if err != nil {
			return nil, err
		}
		st, err := catalog.Load(path, catalog.Options{Today: now()})
		var wrong *catalog.Mistakes
		switch {
		case errors.As(err, &wrong):
			for _, m := range wrong.List {
				if !slices.Contains(all.List, m) {
					all.List = append(all.List, m)
				}
			}
		case err != nil:
			return nil, err
		default:
			jobs = append(jobs, st)
		}
	}
	if len(all.List) > 0 {
		return nil, all
	}
	return jobs, nil
}

// jobsOfOneShop reads jobs that are planned together.
func jobsOfOneShop(paths []string) ([]*catalog.State, error) {
	jobs, err := loadAll(paths)
	if err == nil {
		err = oneShop(jobs)
	}
	return jobs, err
}

// oneShop: jobs that are planned together draw on the same drawers, in one currency.
func oneShop(jobs []*catalog.State) error {
	first := jobs[0]
	for n, st := range jobs {
		for _, other := range jobs[:n] {
			if catalog.SameJob(st, other) {
				return usageError{namedTwice(other.Job.File, st.Job.File)}
			}
		}
		switch {
		case st.Shop.File == "":
			return usageError{fmt.Sprintf("%q names no shop; jobs that are planned together share a shop's file: write shop = "+
				"\"shop.toml\" below [job]", st.Job.File)}
		case n > 0 && !catalog.SameShop(first, st):
			return usageError{fmt.Sprintf("%q is of the shop %q and %q of %q; only jobs of one shop share anything: plan each "+
				"by itself", first.Job.File, first.Shop.File, st.Job.File, st.Shop.File)}
		case n > 0 && !catalog.SameRecord(first, st):
			return usageError{fmt.Sprintf("%q names the shop %q and %q the same file as %q; what is recorded of its pieces "+
				"would stand in two journals: name it alike in both", first.Job.File, first.Shop.File, st.Job.File, st.Shop.File)}
		case st.Job.Currency != first.Job.Currency:
			return usageError{fmt.Sprintf("%q is in %s and %q in %s; sums of two currencies can't be added up", first.Job.File,
				first.Job.Currency, st.Job.File, st.Job.Currency)}
		}
	}
	return nil
}

func namedTwice(first, again string) string {
	if first == again {
		return fmt.Sprintf("%q is named twice; name each job once", again)
	}
	return fmt.Sprintf("%q is the same job as %q; name each job once", again, first)
}

// noneTogether says why there is no plan of all jobs.
func noneTogether(ctx context.Context, together *plan.Joint) (answer, error) {
	a := answer{code: jointCode(together)}
	var short []string
	whole := true
	lacking := lackingAlone(together)
	for _, st := range lacking {
		a.aside += fmt.Sprintf("brightset: %s can't be done even by itself; for why, type: brightset plan %s\n",
			st.Job.File, st.Job.File)
	}
	switch {
	case together.Status != solver.Infeasible && interrupted(ctx):
		a.aside = "brightset: stopped by you before a plan of all jobs was found; nothing is changed\n"
	case together.Status != solver.Infeasible:
		a.aside = fmt.Sprintf("brightset: stopped (%s) before a plan of all jobs was found; give it longer: "+
			"brightset plan --time-limit 5m JOB JOB\n", together.Stop)
	case len(lacking) == 0:
		ctx, done := program.AtMost(ctx, longestLook)
		defer done()
		var err error
		if short, whole, err = joint.ShortOf(ctx, statesOf(together), solver.Settings{}); err != nil {
			return a, err
		}
	}
	a.json = func() (string, error) { return report.NoneTogetherJSON(together, short, whole) }
	if together.Status == solver.Infeasible {
		a.text = func() string { return report.NoneTogether(together, short, whole) }
	}
	return a, nil
}

// lackingAlone are the jobs that can't be done even by themselves.
func lackingAlone(together *plan.Joint) (lacking []*catalog.State) {
	for i := range together.Jobs {
		if together.Jobs[i].Alone.Status == solver.Infeasible {
			lacking = append(lacking, together.Jobs[i].State)
		}
	}
	return lacking
}

func statesOf(together *plan.Joint) (states []*catalog.State) {
	for i := range together.Jobs {
		states = append(states, together.Jobs[i].State)
	}
	return states
}
