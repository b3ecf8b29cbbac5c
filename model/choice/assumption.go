package choice

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// rest names a value as one the result rests on, if it is a starting value and
// was given at all.
func rest[T any](v catalog.Val[T], format string, args ...any) []plan.Rest {
	if !v.Set || v.From.Source != catalog.StartingValue {
		return nil
	}
	return []plan.Rest{plan.Rest(fmt.Sprintf(format, args...))}
}

// shopHourly is the rest of everything the shop's hourly rate enters.
func shopHourly(st *catalog.State) []plan.Rest { return rest(st.Shop.Hourly, "the shop's hourly rate") }

// tidyRests removes repetitions, keeping the order.
func tidyRests(rests []plan.Rest) []plan.Rest {
	var out []plan.Rest
	seen := map[plan.Rest]bool{}
	for _, r := range rests {
		if !seen[r] {
			seen[r] = true
			out = append(out, r)
		}
	}
	return out
}

// LineRests names all starting values a line rests on: the choice's, the
// fallback's, and the rescue where it can come to that.
func LineRests(st *catalog.State, l *plan.Line) []plan.Rest {
	rests := append([]plan.Rest(nil), l.Choice.Rests...)
	last := l.Choice.Fails
	if l.Fallback != nil {
		rests = append(rests, l.Fallback.Rests...)
		last = catalog.Both(last, l.Fallback.Fails)
	}
	waits := l.Fallback == nil
	if l.Sharing != nil && l.Sharing.Yields {
		waits, last = true, l.Choice.Fails
	}
	slot := &st.Slots[l.Slot]
	if last > 0 && slot.Rescue.V > 0 {
		rests = append(rests, rest(slot.Rescue, "the cost of a rescue")...)
	}
	if l.Choice.Fails > 0 && waits && st.Job.WithinDays.Set {
		rests = append(rests, rest(slot.RescueDays, "the days of a rescue")...)
	}
	return tidyRests(rests)
}

// at gives the value for a metal of a per-metal list, not Set where the list
// has none.
func at[T any](list []catalog.Val[T], metal int) catalog.Val[T] {
	if metal < 0 || metal >= len(list) {
		return catalog.Val[T]{}
	}
	return list[metal]
}
