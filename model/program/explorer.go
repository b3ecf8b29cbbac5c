package program

import (
	"context"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// Explorer asks one program again and again, with one thing changed each time.
// What one solve finds out helps the next. It is not safe for use by several
// goroutines at once, but forks of it are.
type Explorer struct {
	*Program
	Solver *solver.Solver
	Set    solver.Settings
}

// NewExplorer makes the program of a state for a series of solves. Slots that
// single choices will be forced or banned in belong in opt.Keep.
// Where the context ends before the program is made, no question gets an answer.
func NewExplorer(ctx context.Context, st *catalog.State, opt Options, set solver.Settings) (*Explorer, error) {
	p := CompileWithin(ctx, st, opt)
	if p.GaveUp {
		return &Explorer{Program: p, Set: set}, nil
	}
	s, err := solver.New(p.Problem)
	if err != nil {
		return nil, err
	}
	return &Explorer{p, s, set}, nil
}

// Fork is an explorer of the same program that knows what this one knows now: for a
// question whose answer must not depend on what else is asked, before it or meanwhile.
func (e *Explorer) Fork() *Explorer {
	f := *e
	if e.Solver != nil {
		f.Solver = e.Solver.Fork()
	}
	return &f
}

// After is an explorer of another program much like this one, which starts with what is
// known of this one. Nothing is known where this one was not made.
func (e *Explorer) After(p *Program) (*Explorer, error) {
	a := &Explorer{Program: p, Set: e.Set}
	if p.GaveUp {
		return a, nil
	}
	var err error
	if e.Solver == nil {
		a.Solver, err = solver.New(p.Problem)
	} else {
		a.Solver, err = solver.NewAfter(p.Problem, e.Solver)
	}
	return a, err
}

// Ask gives the cheapest plan under a change, checked like any other. Where there
// is none the plan's status says so.
func (e *Explorer) Ask(ctx context.Context, ch solver.Change) (*plan.Plan, error) {
	if plan := e.Unfillable(ctx); plan != nil {
		return plan, nil
	}
	res, err := e.Solver.Solve(ctx, ch, e.Set)
	if err != nil {
		return nil, err
	}
	return e.Finish(res)
}

// Least gives the least total under a change: of sets that come to it any will do. It is
// for what only the total counts of.
func (e *Explorer) Least(ctx context.Context, ch solver.Change) (solver.Result, error) {
	if e.GaveUp {
		return NotMade(ctx), nil
	}
	set := e.Set
	set.TotalAlone = true
	return e.Solver.Solve(ctx, ch, set)
}

// Only bans every line of slot s whose planned choice is not among those wanted.
func (p *Program) Only(s int, wanted func(*plan.Choice) bool) []solver.Pick {
	var ban []solver.Pick
	for i, pair := range p.Pairs[s] {
		if !wanted(&p.Choices[s][pair.K]) {
			ban = append(ban, solver.Pick{Group: s, Column: i})
		}
	}
	return ban
}
