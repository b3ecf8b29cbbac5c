package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// concernRows puts what to look at into a row each, the weightiest first.
func concernRows(p *plan.Plan, s *Screen) []string {
	var rows []string
	all := paper.Concerns(p, s.Outlook)
	if len(all) > 0 && all[0].Kind == paper.ConcernIgnored { // all else rests on what does apply
		rows, all = append(rows, "  - "+shorten(concernText(p, &all[0]), Columns-4)), all[1:]
	}
	if s.Since != "" && s.Changed > 0 {
		rows = append(rows, "  - "+shorten(fmt.Sprintf("%s changed since %s", count(s.Changed, "slot"), s.Since),
			Columns-4))
	}
	for i := range all {
		if len(rows) == mostConcerns {
			break
		}
		rows = append(rows, "  - "+shorten(concernText(p, &all[i]), Columns-4))
	}
	return rows
}

func concernText(p *plan.Plan, c *paper.Concern) string {
	st := p.Of
	switch c.Kind {
	case paper.ConcernIgnored:
		return ignoredText(c)
	case paper.ConcernUnpriced:
		return "ask what it costs, it counts as free now: " + plan.SlotNames(st, c.Slots)
	case paper.ConcernBudget:
		return fmt.Sprintf("one job in ten like this goes over the budget by %s or more", catalog.FormatMoney(c.Cents))
	case paper.ConcernOwner:
		return fmt.Sprintf("the owner's quote is %s above the budget", catalog.FormatMoney(c.Cents))
	case paper.ConcernDate:
		return fmt.Sprintf("one job in ten like this is %s late or more", count(c.Days, "day"))
	case paper.ConcernBags:
		return "two bags here would fill " + plan.SlotNames(st, c.Slots) + ": see plan --full"
	case paper.ConcernPairSplit:
		return "not plated in one lot, though seen together: " + plan.SlotNames(st, c.Slots)
	case paper.ConcernShared:
		return fmt.Sprintf("one spare for two, if both fail a rescue, %s: %s", catalog.FormatMoney(c.Cents),
			plan.SlotNames(st, c.Slots))
	case paper.ConcernIrreplaced:
		return fmt.Sprintf("%s has no reserve: %s that it fails, then a rescue, %s", plan.SlotNames(st, c.Slots),
			Percent(c.Chance), catalog.FormatMoney(c.Cents))
	}
	return fmt.Sprintf("%s of plating is our own guess, for %s: ask for prices", catalog.FormatMoney(c.Cents),
		count(len(c.Slots), "slot"))
}

// ignoredWarning says so where nothing else is said of the plan; "" where all applies.
func ignoredWarning(st *catalog.State) string {
	if all := paper.Ignored(st); len(all) > 0 {
		return "\n" + Paragraph("", "", "Look at this first: "+ignoredText(&all[0]))
	}
	return ""
}

// ignoredText says that something recorded does not apply any more.
func ignoredText(c *paper.Concern) string {
	text := "a journal entry doesn't apply any more"
	if c.Count != 1 {
		text = fmt.Sprintf("%d journal entries don't apply any more", c.Count)
	}
	if c.Cents != 0 {
		text += fmt.Sprintf(", %s not counted", catalog.FormatMoney(c.Cents))
	}
	return text + ": brightset check"
}
