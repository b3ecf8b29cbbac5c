package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// Instead writes the set that follows when a slot is filled otherwise than
// advised, and what changes for it elsewhere.
func Instead(slot int, advised, pl *plan.Plan) string {
	notes := newNotes()
	text := Paragraph("", "", fmt.Sprintf("%s: %s otherwise (all sums in %s)", advised.Of.Job.Title,
		advised.Of.Slots[slot].ID, advised.Of.Job.Currency)) +
		"\n" + planTable(pl, notes) + "\n"
	switch more := pl.Expected - advised.Expected; {
	case more == 0:
		text += Paragraph("", "", "The set costs the same as the advised one.")
	default:
		text += Paragraph("", "", fmt.Sprintf("The set costs %s than the advised one, %s.", moreOrLess(more),
			catalog.FormatMoney(advised.Expected)))
	}
	return text + "\n" + list("What changes:", DifferencesText(advised, pl)) +
		list("Where the difference comes from:", allCauses(advised, plan.Causes(slot, advised, pl)))
}

func allCauses(p *plan.Plan, all []plan.Cause) []string {
	var out []string
	for i := range all {
		out = append(out, cause(p, &all[i]))
	}
	return out
}

// DifferencesText says slot by slot what two plans do otherwise.
func DifferencesText(was, now *plan.Plan) []string {
	var out []string
	for _, d := range plan.Differences(was, now) {
		if d.SameChoice() {
			out = append(out, fmt.Sprintf("%s: in reserve %s instead of %s", was.Of.Slots[d.Slot].ID, held(was.Of, d.Now),
				held(was.Of, d.Was)))
			continue
		}
		out = append(out, fmt.Sprintf("%s: %s instead of %s: %s", was.Of.Slots[d.Slot].ID,
			was.Label(d.Now.Choice), was.Label(d.Was.Choice), moreOrLess(d.Now.Expected-d.Was.Expected)))
	}
	return out
}

func held(st *catalog.State, l *plan.Line) string {
	if l.Fallback == nil {
		return "nothing"
	}
	return plan.Label(st, l.Fallback)
}
