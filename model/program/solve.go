package program

import (
	"context"
	"fmt"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/plan"
	"brightset/solver"
)

// Solve finds the cheapest plan of a state. Where there is none the plan's
// status is Infeasible and, if it can be seen from the slots alone, its Reasons
// say why. Every plan is added up again by Check before it is handed out; one
// that fails is an error.
func Solve(ctx context.Context, st *catalog.State, set solver.Settings) (*plan.Plan, error) {
	return CompileWithin(ctx, st, Options{FixedLimits: true}).Solve(ctx, solver.Change{}, set)
}

// Solve makes a solver for the program and solves it once. For a series of
// solves make the solver yourself and use Finish on each answer.
func (p *Program) Solve(ctx context.Context, ch solver.Change, set solver.Settings) (*plan.Plan, error) {
	if plan := p.Unfillable(ctx); plan != nil {
		return plan, nil
	}
	res, err := p.SolveOnce(ctx, ch, set)
	if err != nil {
		return nil, err
	}
	return p.Finish(res)
}

// Finish reads an answer back and checks it against the state. It is meant for
// answers under the state's own rules: a change that lifts a rule or alters a
// cost calls for Plan, and for a Check against a state changed likewise.
func (p *Program) Finish(res solver.Result) (*plan.Plan, error) {
	plan := p.Plan(res)
	if !plan.Has {
		return plan, nil
	}
	if broken := check.Check(p.State, plan); len(broken) > 0 {
		return nil, fmt.Errorf("the plan failed its independent check and is not shown: %v", broken[0])
	}
	return plan, nil
}

// Unfillable gives the plan that says why there is none, where a slot has no line, or
// where the context ended before the program was made; nil where it can be solved.
func (p *Program) Unfillable(ctx context.Context) *plan.Plan {
	if p.GaveUp {
		return p.Plan(NotMade(ctx))
	}
	empty := p.Unfilled()
	if len(empty) == 0 {
		return nil
	}
	plan := p.noPlan()
	for i := range empty {
		u := empty[i].best(p.State)
		plan.Unfilled = append(plan.Unfilled, u)
		plan.Reasons = append(plan.Reasons, empty[i].words(p.State, &u))
	}
	return plan
}

// Best finds the highest sum of weight x grade that the rules and the budget
// allow, and then the cheapest plan that reaches it. Of the context's time the first
// search takes half at most.
func Best(ctx context.Context, st *catalog.State, set solver.Settings) (*plan.Plan, error) {
	p := CompileWithin(ctx, st, Options{Best: true, FixedLimits: true})
	if plan := p.Unfillable(ctx); plan != nil {
		return plan, nil
	}
	part, done := Portion(ctx, 0.5)
	defer done()
	first, err := SolveOnce(part, p.Problem, solver.Change{}, set)
	if err != nil {
		return nil, err
	}
	if !first.Has {
		return p.Plan(first), nil
	}
	least := &solver.Problem{Switches: p.Problem.Switches, Rows: p.Problem.Rows,
		WithinTolerance: p.Problem.WithinTolerance, AllEqual: p.Problem.AllEqual}
	least.Groups = p.Costed()
	ch := solver.Change{Limits: []solver.LimitTo{{Row: RowMean, Limit: -first.Total}}, Start: [][]int{first.Pick}}
	second, err := SolveOnce(ctx, least, ch, set)
	if err != nil {
		return nil, err
	}
	second.Nodes += first.Nodes
	second.LPs += first.LPs
	second.Time += first.Time
	if first.Status == solver.Stopped && second.Status == solver.Optimal {
		second.Status, second.Stop = solver.Stopped, first.Stop // a better one may exist
	}
	plan, err := p.Finish(second)
	if plan != nil {
		plan.Best = true
	}
	return plan, err
}

// Costed gives the groups with what each column costs, less what it keeps, as its cost.
func (p *Program) Costed() []solver.Group {
	groups := make([]solver.Group, len(p.Problem.Groups))
	for s, g := range p.Problem.Groups {
		groups[s] = solver.Group{Name: g.Name, Columns: append([]solver.Column(nil), g.Columns...)}
		for i := range groups[s].Columns {
			groups[s].Columns[i].Cost = int64(p.Pairs[s][i].Weighed())
		}
	}
	return groups
}

// SolveOnce solves the program once, as it stands but for a change.
func (p *Program) SolveOnce(ctx context.Context, ch solver.Change, set solver.Settings) (solver.Result, error) {
	if p.GaveUp {
		return NotMade(ctx), nil
	}
	return SolveOnce(ctx, p.Problem, ch, set)
}

// SolveOnce makes a solver for a problem and solves it once under a change. A problem that
// the solver does not take is an error.
func SolveOnce(ctx context.Context, problem *solver.Problem, ch solver.Change,
	set solver.Settings) (solver.Result, error) {
	s, err := solver.New(problem)
	if err != nil {
		return solver.Result{}, err
	}
	return s.Solve(ctx, ch, set)
}
