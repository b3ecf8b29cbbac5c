package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/solver"
)

// mostJobsShown is how many jobs have a row of their own on the first screen.
const mostJobsShown = 4

// TogetherScreen says in one screen what several jobs come to together, in the order of the
// first screen of one. There must be a plan of all.
func TogetherScreen(out *plan.Joint) string {
	head := []string{
		row(fmt.Sprintf("%d jobs of one shop, planned together", len(out.Jobs)),
			"all sums in "+out.Jobs[0].State.Job.Currency),
		row(decidedTogether(out)),
	}
	figures := append(jointFigures(out), jobRows(out)...)
	var concerns []string
	for _, c := range jointConcerns(out) {
		if len(concerns) < mostConcerns {
			concerns = append(concerns, "  - "+shorten(c.text(out), Columns-4))
		}
	}
	rows := append(append(head, ""), figures...)
	room := rowsShown - len(rows) - len(concerns) - 5 // headings, gaps, the last row
	if acts := actRows(jointErrands(out), room, "brightset plan --full"); len(acts) > 0 {
		rows = append(append(rows, "", "Do now"), acts...)
	} else {
		rows = append(rows, "", "Nothing to do today: what is left is with others, or has yet to come.")
	}
	if len(concerns) > 0 {
		rows = append(append(rows, "", "Look at"), concerns...)
	}
	rows = append(rows, row("More: brightset plan --full", "orders, with the same jobs", "plan JOB, one by itself"))
	return strings.Join(rows, "\n") + "\n"
}

// decidedTogether says how many slots are filled, and what is known of its being the
// cheapest.
func decidedTogether(out *plan.Joint) string {
	slots := 0
	for j := range out.Jobs {
		slots += len(out.Jobs[j].Plan.Lines)
	}
	set := fmt.Sprintf("All %d slots filled", slots)
	if out.Status == solver.Optimal {
		return set + ": the cheapest way for all jobs together, proven"
	}
	return fmt.Sprintf("%s; at most %s above the cheapest for all together", set,
		catalog.FormatMoney(out.Expected-out.Bound))
}

// outlayTogether is what all jobs spend if all goes well, what they share once.
func outlayTogether(out *plan.Joint) catalog.Cents {
	sum := catalog.Cents(0)
	for j := range out.Jobs {
		sum += out.Jobs[j].OwnOutlay()
	}
	for _, c := range out.Charges {
		sum += c.Cents
	}
	return sum
}

// jointFigures are finish and money of all jobs.
func jointFigures(out *plan.Joint) []string {
	job, low := 0, lowest(out.Jobs[0].Plan)
	for j := range out.Jobs {
		if l := lowest(out.Jobs[j].Plan); l.Choice.Grade < low.Choice.Grade {
			job, low = j, l
		}
	}
	finish := fmt.Sprintf("lowest: %s of %s, %s", out.Jobs[job].State.Slots[low.Slot].Name, jobName(out, job),
		catalog.FormatCenti(low.Choice.Grade))
	cost := []string{catalog.FormatMoney(outlayTogether(out)) + " if all goes well",
		catalog.FormatMoney(out.Expected) + " expected"}
	saves, all := catalog.Cents(0), true
	for j := range out.Jobs {
		one, known := out.Saves(&out.Jobs[j])
		saves, all = saves+one, all && known
	}
	if all {
		cost = append(cost, catalog.FormatMoney(saves)+" less than one by one")
	}
	return []string{"  " + row("finish  "+finish), "  " + row("cost    "+cost[0], cost[1:]...)}
}

// jobRows have what each job pays, its finish and its date, as far as there is room.
func jobRows(out *plan.Joint) []string {
	shown := len(out.Jobs)
	if shown > mostJobsShown {
		shown = mostJobsShown - 1
	}
	var rows []string
	for j := range out.Jobs[:shown] {
		job := &out.Jobs[j]
		text := fmt.Sprintf("job %-3d pays %s; %.1f on average", j+1, catalog.FormatMoney(job.Pays), job.Plan.Grade)
		if well := choice.DayDone(job.State, job.Plan); well > 0 {
			text += "; ready " + dayText(job.State, well)
		}
		rows = append(rows, "  "+shorten(text+"; "+job.State.Job.Title, Columns-2))
	}
	if rest := len(out.Jobs) - shown; rest > 0 {
		rows = append(rows, fmt.Sprintf("  and %d more", rest))
	}
	return rows
}

// jointErrands are the acts of all jobs in words, each piece with its job.
func jointErrands(out *plan.Joint) []errand {
	var all []errand
	for _, a := range paper.CommonTodo(out) {
		var e errand
		e.head, e.tail = actText(out.Jobs[a.Parts[0].Job].State, &a.Act)
		for i := range a.Parts {
			part := &a.Parts[i]
			st := out.Jobs[part.Job].State
			items := piecesOf(st, &part.Act)
			for k := range items {
				if slot := part.For[k]; slot != catalog.None {
					id := st.PieceLabel(part.Pieces[k]) + ", " + jobName(out, part.Job)
					items[k] = clean(plan.Called(st.Slots[slot].Name, id))
				}
			}
			e.items, e.ids = unique(append(e.items, items...)), unique(append(e.ids, idsOf(st, &part.Act)...))
		}
		all = append(all, e)
	}
	return all
}

// jointConcern is what to look at in one job.
type jointConcern struct {
	job int
	paper.Concern
}

func (c *jointConcern) text(out *plan.Joint) string {
	return jobName(out, c.job) + ": " + concernText(out.Jobs[c.job].Plan, &c.Concern)
}

// jointConcerns are what to look at in all jobs, the weightiest kind first.
func jointConcerns(out *plan.Joint) []jointConcern {
	var all []jointConcern
	for j := range out.Jobs {
		for _, c := range paper.Concerns(out.Jobs[j].Plan, paper.Outlook{}) {
			all = append(all, jointConcern{j, c})
		}
	}
	slices.SortStableFunc(all, func(a, b jointConcern) int { return cmp.Compare(a.Kind, b.Kind) })
	return all
}
