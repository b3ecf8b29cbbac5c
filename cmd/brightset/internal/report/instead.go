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
		advised.Of.Slots[slot].Name, advised.Of.Job.Currency)) +
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
