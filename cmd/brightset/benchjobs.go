package main

import (
	"context"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/joint"
	"brightset/solver"
)

// benchTogether is the plan of several jobs as plan shows it, or why there is none.
func benchTogether(ctx context.Context, jobs []*catalog.State) (string, error) {
	if err := oneShop(jobs); err != nil {
		return "", err
	}
	out, err := joint.Solve(ctx, jobs, solver.Settings{})
	if err != nil {
		return "", err
	}
	if out.Has {
		return report.Together(out, worths(ctx, out)), nil
	}
	a, err := noneTogether(ctx, out)
	if err != nil || a.text == nil {
		return a.aside, err
	}
	return a.text(), nil
}
