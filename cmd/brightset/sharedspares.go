package main

import (
	"context"
	"fmt"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/plan"
	"brightset/model/program"
)

// checkSharedSpares says which flags don't go with one spare for two slots: what follows
// a plan - orders, risk, the plan that is kept - holds a spare for one slot, and so do
// the plans and prices that stand beside it.
func (o *planOptions) checkSharedSpares() error {
	for _, f := range []struct {
		set       bool
		flag, why string
	}{
		{o.keep, "--keep", "what follows a plan that is kept (orders, risk, record) holds a spare for one slot"},
		{o.best, "--best", "it looks for the least money, not for the best finish"},
		{o.others > 0, "--others", "the plans beside it hold a spare for one slot"},
		{o.mps != "", "--mps", "the program that is written holds a spare for one slot"},
	} {
		if o.sharedSpares && f.set {
			return usageError{fmt.Sprintf("%q and %q don't go together: %s; type: brightset plan --one-for-two", "--one-for-two",
				f.flag, f.why)}
		}
	}
	return nil
}

// solveSharedSpares finds the plan in which two slots may hold one spare, and beside it
// the one without.
func solveSharedSpares(ctx context.Context, line *progress, st *catalog.State) (*plan.Plan, *report.Beside, error) {
	two, one, err := program.SharedSpares(ctx, st, line.settings())
	return two, &report.Beside{HeldForOne: one}, err
}
