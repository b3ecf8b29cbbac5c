package main

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/solver"
)

// benchPapers are the sheets of a plan, without the hunt, which takes its time; unless whole
// without what is asked for them beside the plan as well, which is enough to name them.
func benchPapers(ctx context.Context, st *catalog.State, plan *plan.Plan, whole bool) (*report.Papers, error) {
	set := solver.Settings{}
	p := &report.Papers{Plan: plan, Date: now().Format(time.DateOnly), Photo: photos(st), Spec: true}
	if !whole {
		if st.Quote.Given {
			p.Sums = paper.OwnerQuoteOf(plan, nil, false, 0) // what is set aside stands on the sheet itself
		}
		return p, nil
	}
	err := sharing(ctx, func(ctx context.Context) (err error) {
		p.Stops, p.StopsWhole, err = ask.StopPrices(ctx, plan, set)
		return err
	}, decidedAgainst(p, set))
	if err != nil {
		return nil, err
	}
	quoteTo(p, setAside(ctx, plan))
	return p, nil
}
