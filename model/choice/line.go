package choice

import (
	"math"

	"brightset/catalog"
	"brightset/model/plan"
)

// FallbackCost is what it costs to fall back on f once it is needed:
//
//	u (get + give + before + r strip + (1-r)(max(plate, minimum) + other) + freights)
//	+ (c-u) (vendor's freight + back) + p R
//
// A fallback pays the plater's minimum and freight, and the vendor's freight, by itself,
// and the vendor's both ways if the piece doesn't fit; a piece out of a bundle comes with
// the bundle's freight.
func FallbackCost(st *catalog.State, f *plan.Choice) catalog.Cents {
	plate, freight := FallbackCharges(st, f)
	sum := f.Get + f.Give + f.Before + catalog.Of(f.Refused, f.Strip) +
		catalog.Of(catalog.One-f.Refused, plate+f.Other) + freight
	u := f.Usable()
	return catalog.Of(u, sum) + catalog.Of(f.Chance-u, Returned(st, f, true)) + catalog.Of(f.Fails, Rescue(st, f.Slot))
}

// Expected is what a line costs on average: E = paid(k) + p_k fallback(f), where
// fallback of no fallback (nil) is the rescue of the slot.
func Expected(st *catalog.State, k, f *plan.Choice) catalog.Cents {
	if f == nil {
		return k.ExpectedCost + catalog.Of(k.Fails, Rescue(st, k.Slot))
	}
	return k.ExpectedCost + catalog.Of(k.Fails, FallbackCost(st, f))
}

// DaysAtLatest is when a line is settled at the latest: with its fallback, or a
// rescue, if its choice can fail; with either, if it shares the fallback and yields.
func DaysAtLatest(st *catalog.State, l *plan.Line) int {
	rescued := DayAfter(st, l.Choice.Days+st.Slots[l.Slot].RescueDays.V)
	switch {
	case l.Choice.Fails == 0:
		return OnDay(st, l.Choice)
	case l.Fallback == nil:
		return rescued
	}
	second := DayAfter(st, l.Choice.Days+l.Fallback.Days)
	if l.Sharing != nil && l.Sharing.Yields {
		return max(second, rescued)
	}
	return second
}

// DayDone is the day on which all choices of a plan are done if all goes well.
func DayDone(st *catalog.State, plan *plan.Plan) int {
	day := 0
	for i := range plan.Lines {
		day = max(day, OnDay(st, plan.Lines[i].Choice))
	}
	return day
}

// LastDay is the day on which all lines of a plan are settled at the latest.
func LastDay(st *catalog.State, plan *plan.Plan) int {
	last := 0
	for i := range plan.Lines {
		last = max(last, DaysAtLatest(st, &plan.Lines[i]))
	}
	return last
}

// Certain is a chance of one in the units of BothFail.
const Certain = int64(catalog.One) * int64(catalog.One)

// BothFail is p_k p_f, exactly, in millionths of millionths: the chance that a
// line ends in a rescue.
func BothFail(k, f *plan.Choice) int64 {
	pf := catalog.One
	if f != nil {
		pf = f.Fails
	}
	return int64(k.Fails) * int64(pf)
}

// LogLoss is -1e6 ln(1 - p) of a chance p given as BothFail does, rounded.
func LogLoss(both int64) int64 {
	return int64(math.Round(-1e6 * math.Log1p(-float64(both)/float64(Certain))))
}

// LineInTime: if k can fail, days(k) + days(f) <= within_days, or
// days(k) + rescue_days where there is no fallback (nil). The date must be kept
// even if the first choice fails.
func LineInTime(st *catalog.State, k, f *plan.Choice) bool {
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
	return DayAfter(st, k.Days+second) <= within.V
}
