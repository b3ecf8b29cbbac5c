package model

import (
	"fmt"

	"brightset/catalog"
)

// daysRule: days(k) <= within_days, the days that are gone counted in. What follows when k fails is a rule on the
// line: see daysOfLine.
func daysRule(st *catalog.State, c *Choice, role Role) string {
	within := st.Job.WithinDays
	if role == Reserve || !within.Set || OnDay(st, c) <= within.V {
		return ""
	}
	return fmt.Sprintf("it takes %d days, and there are %d", OnDay(st, c), within.V)
}

// daysOfLine: if k can fail, days(k) + days(f) <= within_days, or
// days(k) + rescue_days where there is no fallback (nil). The date must be kept
// even if the first choice fails.
func daysOfLine(st *catalog.State, k, f *Choice) bool {
	within := st.Job.WithinDays
	if !within.Set {
		return true
	}
	if k.Fails == 0 {
		return OnDay(st, k) <= within.V
	}
	second := st.Slots[k.Slot].RescueDays.Or(0)
	if f != nil {
		second = f.Days
	}
	return onDay(st, k.Days+second) <= within.V
}
