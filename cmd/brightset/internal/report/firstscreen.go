package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
	"brightset/solver"
)

// rowsShown is what fits a terminal of 24 rows, with one left for the prompt.
const rowsShown = 23

// mostConcerns is how many things to look at the first screen has at most.
const mostConcerns = 3

// Screen is what the first screen says besides the plan.
type Screen struct {
	Outlook paper.Outlook
	Acts    []paper.Act
	Changed int    // positions that are otherwise than in the plan that is compared with, or their reserve is
	Since   string // which plan that is; "" for none
}

// FirstScreen says in one screen what is decided, what it comes to, what to do now and
// what to look at before. The plan must have lines.
func FirstScreen(p *plan.Plan, s *Screen) string {
	head := []string{row(p.Of.Job.Title, "all sums in "+p.Of.Job.Currency), row(decided(p))}
	figures := screenFigures(p, &s.Outlook)
	concerns := concernRows(p, s)
	room := rowsShown - len(head) - len(figures) - len(concerns) - 6 // headings, gaps, the last row
	var errands []errand
	for i := range s.Acts {
		errands = append(errands, errandOf(p.Of, &s.Acts[i]))
	}
	acts := actRows(errands, room, "brightset plan --full")
	rows := append(head, "")
	rows = append(rows, figures...)
	if len(acts) > 0 {
		rows = append(append(rows, "", "Do now"), acts...)
	} else {
		rows = append(rows, "", "N"+nothingToDo(p)[1:])
	}
	if len(concerns) > 0 {
		rows = append(append(rows, "", "Look at"), concerns...)
	}
	rows = append(rows, row("More: brightset plan --full", "why SLOT", "orders", "risk", "hunt", "report"))
	return strings.Join(rows, "\n") + "\n"
}

// nothingToDo says why there is nothing to do.
func nothingToDo(p *plan.Plan) string {
	if hangs(p) {
		return "nothing is left to do: the whole set hangs."
	}
	return "nothing to do today: what is left is with others, or has yet to come."
}

// decided says how many positions are filled, and what is known of its being the cheapest.
func decided(p *plan.Plan) string {
	set := fmt.Sprintf("All %d slots filled", len(p.Lines))
	if len(p.Lines) == 1 {
		set = "The one slot filled"
	}
	switch {
	case p.Best && p.Status == solver.Optimal:
		return set + ": the best finish the budget allows, proven"
	case p.Best:
		return set + "; not proven to be the best finish"
	case keepsAny(p.Of) && p.Status == solver.Optimal:
		return set + ": proven the best, cost and keeping weighed"
	case p.Status == solver.Optimal:
		return set + ": the cheapest way on these figures, proven"
	}
	if p.Stop == solver.CloseEnough {
		return fmt.Sprintf("%s: proven to be at most %s above the cheapest way", set,
			catalog.FormatMoney(p.Expected-p.Bound))
	}
	return fmt.Sprintf("%s; not proven the cheapest, at most %s above it", set, catalog.FormatMoney(p.Expected-p.Bound))
}

// hangs says whether every position is filled on the object itself.
func hangs(p *plan.Plan) bool {
	for i := range p.Lines {
		if p.Of.Pieces[p.Lines[i].Choice.Piece].Stage != catalog.StageHung {
			return false
		}
	}
	return true
}

// screenFigures sets finish, money and date against what is asked for, a row each.
func screenFigures(p *plan.Plan, o *paper.Outlook) []string {
	job := &p.Of.Job
	low := lowest(p)
	finish := []string{fmt.Sprintf("%.1f on average", p.Grade)}
	if mean := job.Target.Mean; mean.Set {
		finish[0] += fmt.Sprintf(", %s asked for", catalog.FormatCenti(mean.V))
	}
	finish = append(finish, fmt.Sprintf("lowest: %s, %s", p.Of.Slots[low.Slot].Name,
		catalog.FormatCenti(low.Choice.Grade)))
	cost := []string{catalog.FormatMoney(p.Outlay+job.SpentSum) + " if all goes well"}
	if o.Nine > 0 {
		cost = append(cost, "nine in ten within "+catalog.FormatMoney(o.Nine+job.SpentSum))
	}
	if job.Budget.Set && job.BudgetOn != catalog.OnQuote {
		cost = append(cost, "budget "+catalog.FormatMoney(job.Budget.V+job.SpentSum))
	}
	if job.SpentSum != 0 {
		cost = append(cost, catalog.FormatMoney(job.SpentSum)+" of it spent")
	}
	rows := []string{"  " + row("finish  "+finish[0], finish[1:]...), "  " + row("cost    "+cost[0], cost[1:]...)}
	if keepsAny(p.Of) {
		rows = append(rows, "  "+row(fmt.Sprintf("kept    %d of %d are pieces off the object", own(p), len(p.Lines))))
	}
	if o.Owner > 0 {
		pays := []string{}
		if job.Budget.Set && job.BudgetOn == catalog.OnQuote {
			pays = append(pays, "budget "+catalog.FormatMoney(job.Budget.V+job.SpentSum))
		}
		rows = append(rows, "  "+row("owner   pays "+catalog.FormatMoney(o.Owner)+", tax included", pays...))
	}
	if hangs(p) {
		return rows
	}
	ready := []string{"as soon as it is hung"}
	if well := doneOf(p).Well; well > 0 {
		ready[0] = dayText(p.Of, well) + " if all goes well"
	}
	if o.Days > 0 {
		ready = append(ready, "nine in ten "+dayText(p.Of, o.Days))
	}
	if job.WithinDays.Set {
		ready = append(ready, "wanted "+dayText(p.Of, job.WithinDays.V))
	}
	return append(rows, "  "+row("ready   "+ready[0], ready[1:]...))
}

// lowest is the line that hangs least fine, the first of several.
func lowest(p *plan.Plan) *plan.Line {
	low := &p.Lines[0]
	for i := range p.Lines {
		if p.Lines[i].Choice.Grade < low.Choice.Grade {
			low = &p.Lines[i]
		}
	}
	return low
}

// dayText is a day of the job in the calendar, or as a number where the start isn't known.
func dayText(st *catalog.State, day int) string {
	if date := onDate(st, day); date != "" {
		return date
	}
	return fmt.Sprintf("day %d", day)
}

// row joins clauses with semicolons as far as they fit a row (two columns are left for
// the indent): what doesn't fit is found behind --full.
func row(first string, rest ...string) string {
	text := shorten(first, Columns-2)
	for _, clause := range rest {
		if Width(text)+2+Width(clause) <= Columns-2 {
			text += "; " + clause
		}
	}
	return text
}

// shorten shortens a text to a width, with three dots where something is missing.
func shorten(s string, width int) string {
	s = clean(s)
	if Width(s) <= width {
		return s
	}
	head, _ := split(s, width-3)
	return strings.TrimRight(head, " ") + "..."
}
