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
	if s.Since != "" && s.Changed > 0 {
		rows = append(rows, "  - "+shorten(fmt.Sprintf("%s changed since %s", count(s.Changed, "slot"), s.Since),
			Columns-4))
	}
	all := paper.Concerns(p, s.Outlook)
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
