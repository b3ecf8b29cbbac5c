package main

import (
	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model"
	"brightset/solver"
)

// nothingFits says why there is no plan, and what could be given up. With --best the
// mean asked for plays no part.
func (o *planOptions) nothingFits(c *call, st *catalog.State, p *model.Plan) error {
	ctx, stop := interruptible()
	defer stop()
	asked := st
	if o.best {
		asked = st.Clone()
		asked.Job.Target.Mean = catalog.Val[catalog.Centi]{}
	}
	line := newProgress(c.err)
	set := solver.Settings{Progress: line.told}
	if o.limit > 0 {
		set.TimeLimit = max(o.limit-p.Result.Time, 1) // not 0, which is no limit
	}
	conflict, err := model.Explain(ctx, asked, set)
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
