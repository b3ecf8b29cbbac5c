package model

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/solver"
)

// OneForTwo finds the cheapest plan in which two slots may hold one spare together.
// It starts from the cheapest plan without that, for which it takes half of the time
// at most.
func OneForTwo(ctx context.Context, st *catalog.State, set solver.Settings) (*Plan, error) {
	two, _, err := OneForTwoAgainstOne(ctx, st, set)
	return two, err
}

// OneForTwoAgainstOne gives beside it the cheapest plan in which every spare is held
// for one slot.
func OneForTwoAgainstOne(ctx context.Context, st *catalog.State, set solver.Settings) (two, one *Plan, err error) {
	began := time.Now()
	single := set
	if set.TimeLimit > 0 {
		single.TimeLimit = max(set.TimeLimit/2, 1)
	}
	if one, err = Solve(ctx, st, single); err != nil {
		return nil, nil, err
	}
	if set.TimeLimit > 0 {
		set.TimeLimit = max(set.TimeLimit-time.Since(began), 1) // not 0, which is no limit
	}
	p := Compile(st, Options{OneForTwo: true, FixedLimits: true})
	ch := solver.Change{}
	if start := p.startFrom(one); start != nil {
		ch.Start = [][]int{start}
	}
	two, err = p.Solve(ctx, ch, set)
	return two, one, err
}

// startFrom finds the columns of a plan in which nothing is shared, nil where there is
// no plan, or where one of its lines is left out of this program.
func (p *Program) startFrom(plan *Plan) []int {
	if !plan.Has {
		return nil
	}
	pick := make([]int, len(p.Problem.Groups))
	for s := range plan.Lines {
		l := &plan.Lines[s]
		at := catalog.None
		for i := range len(p.Pairs[s]) - len(p.sharing[s]) {
			if k, f := p.line(s, p.Pairs[s][i]); sameChoice(k, l.Choice) && sameChoice(f, l.Fallback) {
				at = i
				break
			}
		}
		if at == catalog.None {
			return nil
		}
		pick[s] = at
	}
	return pick
}
