package choice

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// FindSame finds the same choice among others for its slot; itself where it is not there.
func FindSame(choices []plan.Choice, c *plan.Choice) *plan.Choice {
	for i := range choices {
		if plan.SameChoice(&choices[i], c) {
			return &choices[i]
		}
	}
	return c
}

// Terms are what a choice that has yet to be sent is expected to come to for one piece:
// what is agreed with the plater when it goes to him. The works of others are done by
// then: they can't break it any more, and take none of his days; handwork to make it fit is done when it hangs, and
// is none of the plater's either.
func Terms(st *catalog.State, c *plan.Choice) catalog.Quote {
	one := st.Clone()
	one.Slots[c.Slot].Quantity = 1
	p := &one.Pieces[c.Piece]
	if Fitting(p, c.Slot) != nil {
		p.Fits, p.Fit = append(slices.Clone(p.Fits), c.Slot), nil
	}
	k := FindSame(ChoicesFor(one, c.Slot), c)
	set := func(m catalog.Micro) catalog.Val[catalog.Micro] { return catalog.Val[catalog.Micro]{V: m, Set: true} }
	return catalog.Quote{
		Plater: k.Plater, Work: k.Work, Level: k.Level, Cost: k.Plate,
		Breakage: set(hisBreakage(one, k)), Refused: set(k.Refused),
		Grade: catalog.Val[catalog.Centi]{V: k.Grade, Set: true}, Tone: catalog.Val[catalog.Centi]{V: k.Tone,
			Set: true},
		Fresh: catalog.Val[bool]{V: k.Fresh, Set: true},
		Days:  catalog.Val[int]{V: k.Days - Arrival(one, p) - makersDays(one, k), Set: true},
	}
}

// hisBreakage is what is left of a choice's breakage once the works of others are done: a
// plater's quote is about his own work, an estimate has the two apart.
func hisBreakage(st *catalog.State, c *plan.Choice) catalog.Micro {
	var e estimate
	has, level := false, catalog.None
	if c.Quote != catalog.None {
		q := &st.Pieces[c.Piece].Quotes[c.Quote]
		if q.Breakage.Set {
			return c.Breakage
		}
		level = quoteLevel(st, q)
		e, has = quoteEstimate(st, c.Slot, c.Piece, q, level)
	} else {
		level = slices.IndexFunc(st.Platers[c.Plater].Levels, func(l catalog.Level) bool { return l.Name == c.Level })
		var why string
		e, why = estimated(st, c.Slot, c.Piece, c.Plater, level)
		has = why == ""
	}
	if !has || othersWorks(c) == 0 {
		return c.Breakage // nobody else does anything
	}
	return e.his
}

// othersWorks is how many works the shop and the makers do on a piece before it goes to
// the plater.
func othersWorks(c *plan.Choice) int {
	n := 0
	for _, part := range c.Parts {
		if part.Work != catalog.None && part.Doer != plan.ByPlater {
			n++
		}
	}
	return n
}

// makersDays is how long the makers are busy with a piece before it goes to the plater.
func makersDays(st *catalog.State, c *plan.Choice) int {
	days := 0
	for _, part := range c.Parts {
		if part.Doer == plan.ByMaker {
			days = max(days, st.Makers[part.Maker].Days)
		}
	}
	return days
}

// WorkBefore is what the shop and the makers do to one piece before it goes to the
// plater, fitting it by hand aside: it is paid for by the time it is sent.
func WorkBefore(st *catalog.State, c *plan.Choice) catalog.Cents {
	sum := catalog.Cents(0)
	for _, part := range c.Parts {
		if part.Work != catalog.None && part.Doer != plan.ByPlater {
			sum += part.Cost
		}
	}
	return sum / catalog.Cents(Needed(&st.Slots[c.Slot]))
}
