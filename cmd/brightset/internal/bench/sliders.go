package bench

import (
	"fmt"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/choice"
	"brightset/model/plan"
)

// slider is one of "what if": it stands where the plan is, and says what is asked for.
type slider struct {
	ID, Label, Asked string
	At, Most, Step   string
}

// slidersOf are the sliders of a plan. What a slider says is rounded to the side on which the plan is.
func slidersOf(p *plan.Plan) []slider {
	job := &p.Of.Job
	asked := func(set bool, text string) string {
		if !set {
			return "nothing is asked"
		}
		return "asked for: " + text
	}
	spends := p.Outlay
	if job.BudgetOn == catalog.OnExpected {
		spends = p.Expected
	}
	spends += job.SpentSum
	const step = 10_00
	whole := (spends + step - 1) / step * step / 100
	last := choice.LastDay(p.Of, p)
	return []slider{
		{"mean", "Mean grade", asked(job.Target.Mean.Set, catalog.FormatCenti(job.Target.Mean.V)+" or more"),
			fmt.Sprintf("%g", float64(int(p.Grade*2))/2), "100", "0.5"},
		{"budget", "Budget, " + job.Currency, asked(job.Budget.Set, "at most "+
			catalog.FormatMoney(job.Budget.V+job.SpentSum)), fmt.Sprint(whole),
			fmt.Sprint(int64(max(job.Budget.Or(0)+job.SpentSum, spends)*2/100/10*10 + 100)), "10"},
		{"completion", "Chance that no slot needs a rescue, %", asked(job.Completion.Set,
			report.Percent(job.Completion.V)+" or more"), fmt.Sprint(int(min(p.Completion*100, 99))), "99", "1"},
		{"days", "Days allowed", asked(job.WithinDays.Set, fmt.Sprintf("at most %d", job.WithinDays.V)),
			fmt.Sprint(last), fmt.Sprint(max(job.WithinDays.Or(0), last)*2 + 30), "1"},
	}
}

// meanRow is a mean of which "what if" says what it costs.
type meanRow struct {
	Mean string
	Far  int // how manieth it is looked for: the nearest to the plan first
}

// meansAround are the means beside a plan's own, rising: every two points, ten to either side.
func meansAround(p *plan.Plan) (all []meanRow) {
	const step, side = 2, 5
	at := int(p.Grade)
	for n := -side; n <= side; n++ {
		if mean := at + n*step; n != 0 && mean > 0 && mean <= 100 {
			far := 2*n - 1
			if n < 0 {
				far = -2 * n
			}
			all = append(all, meanRow{fmt.Sprint(mean), far})
		}
	}
	return all
}
