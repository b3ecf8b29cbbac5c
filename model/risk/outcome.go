package risk

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Outcome is one way a line can turn out: how likely, what it costs in the end,
// and after how many days the slot is filled.
type Outcome struct {
	Chance float64
	Cents  catalog.Cents // with what used pieces of the customer's would have fetched
	Cash   catalog.Cents // what is paid
	Days   int
	Grade  catalog.Centi // of what hangs in the slot in the end
	Rescue bool          // neither the choice nor the fallback filled the slot
}

// stage is one way in which a single choice can turn out.
type stage struct {
	chance float64
	cents  catalog.Cents
	cash   catalog.Cents
	filled bool
}

// stages of a choice: it does not come and costs nothing; it does not fit, and costs being
// returned; it is sent back after
// stripping and costs the price, what was done before and the strip fee; it is worked on, and breaks or
// not. extra is what it costs beside price and work once it comes.
func stages(c *plan.Choice, plate, extra, returned catalog.Cents) []stage {
	come, fits := share(c.Chance), share(c.Chance)*(1-share(c.Misfit))
	back, breaks := share(c.Refused), share(c.Breakage)
	price := c.Get + extra
	worked, sentBack := price+c.Before+plate+c.Other, price+c.Before+c.Strip
	all := []stage{
		{fits * (1 - back) * (1 - breaks), worked + c.Give, worked, true},
		{fits * (1 - back) * breaks, worked + c.Give, worked, false},
		{fits * back, sentBack + c.Give, sentBack, false},
		{come - fits, returned, returned, false},
		{1 - come, 0, 0, false},
	}
	kept := all[:0]
	for _, s := range all {
		if s.chance > 0 {
			kept = append(kept, s)
		}
	}
	return kept
}

func share(m catalog.Micro) float64 { return float64(m) / float64(catalog.One) }

// Outcomes are the ways a line can turn out, with its fallback, and with a rescue
// where that fails too. What a rescue finds is taken to be as good as the slot asks for,
// and no better; where it asks for nothing, as good as planned. Their mean is the line's expected cost, but for the
// rounding of that to cents. The fallback pays its own freight and minimum.
func Outcomes(st *catalog.State, l *plan.Line) []Outcome {
	slot := &st.Slots[l.Slot]
	rescued := Outcome{Chance: 1, Cents: slot.Rescue.V, Cash: slot.Rescue.V, Days: slot.RescueDays.V, Rescue: true,
		Grade: slot.Target.Floor.Or(l.Choice.Grade)}
	after := []Outcome{rescued}
	if f := l.Fallback; f != nil {
		plate, extra := choice.FallbackCharges(st, f)
		after = follow(stages(f, plate, extra, choice.Returned(st, f, true)), f, []Outcome{rescued})
	}
	all := follow(stages(l.Choice, l.Choice.Plate, 0, choice.Returned(st, l.Choice, false)), l.Choice, after)
	for i := range all {
		all[i].Days = choice.DayAfter(st, all[i].Days)
	}
	return all
}

// follow lets what comes after a choice follow every stage of it that has not filled the slot.
func follow(stages []stage, c *plan.Choice, after []Outcome) []Outcome {
	var all []Outcome
	for _, s := range stages {
		if s.filled {
			all = append(all, Outcome{Chance: s.chance, Cents: s.cents, Cash: s.cash, Days: c.Days, Grade: c.Grade})
			continue
		}
		for _, a := range after {
			a.Chance *= s.chance
			a.Cents += s.cents
			a.Cash += s.cash
			a.Days += c.Days
			all = append(all, a)
		}
	}
	return all
}
