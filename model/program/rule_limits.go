package program

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// breakageRule: b(k) <= max_breakage. A piece that can't be had again is not
// put at more risk than the slot allows. Fallbacks are not bound by it.
func breakageRule(st *catalog.State, c *plan.Choice, role Role) string {
	most := st.Slots[c.Slot].MaxBreakage
	if role == Reserve || !most.Set || c.Breakage <= most.V {
		return ""
	}
	return fmt.Sprintf("breakage %s is above the most allowed, %s", percentAbove(c.Breakage, most.V), plan.Percent(most.V))
}

// percentAbove writes a chance that is above another with one place, where that still shows it.
func percentAbove(p, other catalog.Micro) string {
	const tenth = catalog.One / 1000
	if near := (p + tenth/2) / tenth * tenth; near > other {
		p = near
	}
	return plan.Percent(p)
}

// daysRule: days(k) <= within_days, the days that are gone counted in. What follows when
// k fails is a rule on the line: see choice.LineInTime.
func daysRule(st *catalog.State, c *plan.Choice, role Role) string {
	within := st.Job.WithinDays
	if role == Reserve || !within.Set || choice.OnDay(st, c) <= within.V {
		return ""
	}
	return fmt.Sprintf("it takes %d days, and there are %d", choice.OnDay(st, c), within.V)
}
