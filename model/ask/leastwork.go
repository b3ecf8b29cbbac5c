package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// DoLeast keeps all that passes: the most weight of slots filled by a piece of the
// customer's as it is or only cleaned, and of such plans the cheapest. Rules and
// budget stay.
func DoLeast(ctx context.Context, st *catalog.State, set solver.Settings) (*plan.Plan, error) {
	p := program.CompileWithin(ctx, st, program.Options{FixedLimits: true, Keep: allSlots(st)})
	if plan := p.Unfillable(ctx); plan != nil {
		return plan, nil
	}
	most := copied(p)
	most.Uncharged = true
	for s := range most.Groups {
		for i, pair := range p.Pairs[s] {
			most.Groups[s].Columns[i].Cost = -kept(st, &p.Choices[s][pair.K])
		}
	}
	part, done := program.Portion(ctx, 0.5)
	defer done()
	first, err := program.SolveOnce(part, most, solver.Change{}, set)
	if err != nil {
		return nil, err
	}
	if !first.Has {
		return p.Plan(first), nil
	}
	second, err := program.SolveOnce(ctx, keeping(p, -first.Total), solver.Change{Start: [][]int{first.Pick}}, set)
	if err != nil {
		return nil, err
	}
	if first.Status == solver.Stopped && second.Status == solver.Optimal {
		second.Status, second.Stop = solver.Stopped, first.Stop // one that keeps more may exist
	}
	return p.Finish(second)
}

// keeping is the problem of the least total with so much weight kept at least.
func keeping(p *program.Program, weight int64) *solver.Problem {
	q := copied(p)
	row := len(q.Rows)
	q.Rows = append(q.Rows, solver.Row{Name: "kept", Sense: solver.AtLeast, Limit: weight})
	for s := range q.Groups {
		for i, pair := range p.Pairs[s] {
			if w := kept(p.State, &p.Choices[s][pair.K]); w != 0 {
				col := &q.Groups[s].Columns[i]
				col.Terms = append(col.Terms, solver.Term{Row: row, Coef: w})
			}
		}
	}
	return q
}

// kept is the weight of the slot where a choice keeps what the customer has; all
// slots count alike where none has a weight.
func kept(st *catalog.State, c *plan.Choice) int64 {
	if st.Pieces[c.Piece].Side != catalog.Customers || c.Work != catalog.WorkAsIs && c.Work != catalog.WorkClean {
		return 0
	}
	if program.TotalWeight(st) == 0 {
		return 1
	}
	return int64(st.Slots[c.Slot].Weight)
}

// leastPlan, finestPlan and unlockedPlan give the plans that always stand beside the
// advised one; nil where time is up.
func leastPlan(c *clock, st *catalog.State) (*plan.Plan, error) {
	set, ok := c.next()
	if !ok {
		return nil, nil
	}
	set.TimeLimit /= 2 // for each of its two searches
	return DoLeast(c.ctx, st, set)
}

func finestPlan(c *clock, st *catalog.State) (*plan.Plan, error) {
	set, ok := c.next()
	if !ok {
		return nil, nil
	}
	set.TimeLimit /= 2
	return program.Best(c.ctx, st, set)
}

func unlockedPlan(c *clock, st *catalog.State) (*plan.Plan, error) {
	set, ok := c.next()
	if !ok || len(st.Locks) == 0 {
		return nil, nil
	}
	free := st.Clone()
	free.Locks = nil
	return program.Solve(c.ctx, free, set)
}
