package main

import (
	"context"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/solver"
)

// nothingFits says why there is no plan, and what could be given up. With --best the
// mean asked for plays no part.
func (o *planOptions) nothingFits(ctx context.Context, c *call, st *catalog.State, p *plan.Plan) error {
	asked := st
	if o.best {
		asked = st.Clone()
		asked.Job.Target.Mean = catalog.Val[catalog.Centi]{}
	}
	line := newProgress(c.err)
	conflict, err := ask.Explain(ctx, asked, solver.Settings{Progress: line.told})
	line.done()
	if err != nil {
		return err
	}
	if !o.json {
		return c.print(report.Infeasible(st, p, conflict))
	}
	text, err := report.InfeasibleJSON(st, p, conflict)
	if err == nil {
		err = c.print(text)
	}
	return err
}
