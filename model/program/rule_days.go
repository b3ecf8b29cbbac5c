package program

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// daysRule: days(k) <= within_days, the days that are gone counted in. What follows when k fails is a rule on the
// line: see daysOfLine.
func daysRule(st *catalog.State, c *plan.Choice, role Role) string {
	within := st.Job.WithinDays
	if role == Reserve || !within.Set || choice.OnDay(st, c) <= within.V {
		return ""
	}
	return fmt.Sprintf("it takes %d days, and there are %d", choice.OnDay(st, c), within.V)
}
