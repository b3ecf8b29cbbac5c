package report

import (
	"time"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// askedDoc is what the job as a whole is asked to keep to; null and "" where it isn't.
type askedDoc struct {
	Target     string         `json:"target"`
	Mean       *float64       `json:"mean"`
	Completion *float64       `json:"completion"`
	Budget     *catalog.Cents `json:"budget_cents"`      // what is spent already included
	BudgetOn   string         `json:"budget_on"`         // outlay, expected or quote
	BudgetLeft *catalog.Cents `json:"budget_left_cents"` // by the plan
	WithinDays *int           `json:"within_days"`
	Start      string         `json:"start"`
}

// askedOf needs a plan only for what is left of the budget; nil where there is none.
func askedOf(st *catalog.State, p *plan.Plan) askedDoc {
	job := &st.Job
	doc := askedDoc{
		Target:     job.Target.Name,
		Mean:       grade(job.Target.Mean),
		Completion: chance(job.Completion),
		WithinDays: withinDays(st),
	}
	if job.Start.Set {
		doc.Start = job.Start.V.Format(time.DateOnly)
	}
	if job.Budget.Set {
		whole := job.Budget.V + job.SpentSum
		doc.Budget, doc.BudgetOn = &whole, job.BudgetOn.String()
		if p != nil && p.Has {
			left := p.BudgetLeft()
			doc.BudgetLeft = &left
		}
	}
	return doc
}

// grade and chance are null where nothing is given.
func grade(v catalog.Val[catalog.Centi]) *float64 {
	if !v.Set {
		return nil
	}
	g := hundredths(v.V)
	return &g
}

func chance(v catalog.Val[catalog.Micro]) *float64 {
	if !v.Set {
		return nil
	}
	c := millionths(v.V)
	return &c
}

func withinDays(st *catalog.State) *int {
	if !st.Job.WithinDays.Set {
		return nil
	}
	days := st.Job.WithinDays.V
	return &days
}

// onDate is a day of the job in the calendar, "" where the job has no start.
func onDate(st *catalog.State, day int) string {
	if !st.Job.Start.Set {
		return ""
	}
	return st.Job.Start.V.AddDate(0, 0, day).Format(time.DateOnly)
}

// doneDoc says when the set is complete.
type doneDoc struct {
	Well   int    `json:"days_if_all_goes_well"`
	On     string `json:"day_if_all_goes_well"` // in the calendar, "" where the job has no start
	Latest int    `json:"days_at_latest"`       // with every fallback or rescue
}

func doneOf(p *plan.Plan) *doneDoc {
	well := choice.DayDone(p.Of, p)
	return &doneDoc{Well: well, On: onDate(p.Of, well), Latest: choice.LastDay(p.Of, p)}
}
