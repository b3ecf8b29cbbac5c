package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model"
)

// Infeasible says that nothing meets the target within the limits: which slots
// nothing can fill and why, or else which demands on the set as a whole can't
// all be met.
func Infeasible(st *catalog.State, p *model.Plan) string {
	head := Paragraph("", "", st.Job.Title) + "\n" +
		Paragraph("", "", "Nothing meets the target within the limits: proven.") + "\n"
	if len(p.Reasons) > 0 {
		return head + list("These slots nothing can fill:", p.Reasons)
	}
	return head + Paragraph("", "", "Every slot has choices that are good enough by themselves, but no set of them keeps all of these together:") +
		list("", demands(st)) + Paragraph("", "", "Give way in one of them and try again.")
}

// demands lists what is asked of the set as a whole.
func demands(st *catalog.State) []string {
	job := &st.Job
	var all []string
	if job.Budget.Set {
		on := "the outlay"
		if job.BudgetOn == catalog.OnExpected {
			on = "the expected total"
		}
		all = append(all, "the budget of "+catalog.FormatMoney(job.Budget.V)+" on "+on)
	}
	if job.Target.Mean.Set {
		all = append(all, "the mean grade of "+catalog.FormatCenti(job.Target.Mean.V))
	}
	if job.Completion.Set {
		all = append(all, "the chance of "+Percent(job.Completion.V)+" that no slot needs a rescue")
	}
	if job.WithinDays.Set {
		all = append(all, fmt.Sprintf("%d days, with the fallback or rescue of every piece that may fail", job.WithinDays.V))
	}
	for i := range st.Matches {
		all = append(all, fmt.Sprintf("the match group %q", st.Matches[i].ID))
	}
	return append(all, "every piece is used only as often as it is there, held in reserve included")
}
