package choice

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model/plan"
)

// assumed names a value as one the result rests on, if it is a starting value and
// was given at all.
func assumed[T any](v catalog.Val[T], format string, args ...any) []plan.Assumption {
	if !v.Set || v.From.Source != catalog.StartingValue {
		return nil
	}
	return []plan.Assumption{plan.Assumption(fmt.Sprintf(format, args...))}
}

// shopHourly is the rest of everything the shop's hourly rate enters.
func shopHourly(st *catalog.State) []plan.Assumption {
	return assumed(st.Shop.Hourly, "the shop's hourly rate")
}

// tidyAssumptions removes repetitions, keeping the order.
func tidyAssumptions(rests []plan.Assumption) []plan.Assumption {
	var out []plan.Assumption
	seen := map[plan.Assumption]bool{}
	for _, r := range rests {
		if !seen[r] {
			seen[r] = true
			out = append(out, r)
		}
	}
	return out
}

// LineAssumptions names all starting values a line rests on: the choice's, the
// fallback's, and the rescue where it can come to that.
func LineAssumptions(st *catalog.State, l *plan.Line) []plan.Assumption {
	rests := append([]plan.Assumption(nil), l.Choice.Assumptions...)
	last := l.Choice.Fails
	if l.Fallback != nil {
		rests = append(rests, l.Fallback.Assumptions...)
		last = catalog.Both(last, l.Fallback.Fails)
	}
	waits := l.Fallback == nil
	if l.Sharing != nil && l.Sharing.Yields {
		waits, last = true, l.Choice.Fails
	}
	slot := &st.Slots[l.Slot]
	if last > 0 && slot.Rescue.V > 0 {
		rests = append(rests, assumed(slot.Rescue, "the cost of a rescue")...)
	}
	if l.Choice.Fails > 0 && waits && st.Job.WithinDays.Set {
		rests = append(rests, assumed(slot.RescueDays, "the days of a rescue")...)
	}
	return tidyAssumptions(rests)
}

// at gives the value for a metal of a per-metal list, not Set where the list
// has none.
func at[T any](list []catalog.Val[T], metal int) catalog.Val[T] {
	if metal < 0 || metal >= len(list) {
		return catalog.Val[T]{}
	}
	return list[metal]
}

// breakageOf begins the name of every starting value that is a chance of breaking.
const breakageOf = "breakage of "

// GuessedBreakage says whether the chance that a choice breaks rests on starting values, and on
// no quote or outcome.
func GuessedBreakage(c *plan.Choice) bool {
	return slices.ContainsFunc(c.Assumptions, func(a plan.Assumption) bool {
		return strings.HasPrefix(string(a), breakageOf)
	})
}
