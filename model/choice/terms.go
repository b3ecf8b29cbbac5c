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
// what is agreed with the plater when it goes to him. The works of others are none of his:
// those before plating are done by then, the rest when it is back; handwork to make it fit is done when it hangs, and
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
			return q.Breakage.V
		}
		level = quoteLevel(st, q)
		e, has = quoteEstimate(st, c.Slot, c.Piece, q, level)
	} else {
		level = slices.IndexFunc(st.Platers[c.Plater].Levels, func(l catalog.Level) bool { return l.Name == c.Level })
		var why string
		e, why = estimated(st, c.Slot, c.Piece, c.Plater, level)
		has = why == ""
	}
	if !has || len(WorksBefore(st, c))+len(WorksAfter(st, c)) == 0 {
		return c.Breakage // nobody else does anything
	}
	return e.his
}

// othersWorks are the works that the shop and the makers do on a piece, those that are wanted.
func othersWorks(c *plan.Choice, wanted func(plan.Part) bool) (works []int) {
	for _, part := range c.Parts {
		if part.Work != catalog.None && part.Doer != plan.ByPlater && wanted(part) {
			works = append(works, part.Work)
		}
	}
	return works
}

// makersDays is how long the makers are busy with a piece, before it goes to the plater and
// when it is back.
func makersDays(st *catalog.State, c *plan.Choice) int {
	days := map[bool]int{} // after plating or before
	for _, part := range c.Parts {
		if part.Doer == plan.ByMaker {
			after := st.Tables.Works[part.Work].AfterPlating()
			days[after] = max(days[after], st.Makers[part.Maker].Days)
		}
	}
	return days[false] + days[true]
}

// GoesBefore says whether a part of a plated choice is done by others before its piece goes
// to the plater.
func GoesBefore(st *catalog.State, part plan.Part) bool {
	return part.Work != catalog.None && part.Doer != plan.ByPlater && !st.Tables.Works[part.Work].AfterPlating()
}

// WorksBefore are the works that others do to the piece of a choice before it goes to the
// plater.
func WorksBefore(st *catalog.State, c *plan.Choice) []int {
	return othersWorks(c, func(part plan.Part) bool { return GoesBefore(st, part) })
}

// WorksAfter are those that others do when it is back.
func WorksAfter(st *catalog.State, c *plan.Choice) []int {
	return othersWorks(c, func(part plan.Part) bool { return !GoesBefore(st, part) })
}

// WorkBefore is what the shop does to one piece before it goes to the plater, fitting it by
// hand aside, and what makers do: it is paid for by the time it is sent.
func WorkBefore(st *catalog.State, c *plan.Choice) (own, makers catalog.Cents) {
	for _, part := range c.Parts {
		switch {
		case !GoesBefore(st, part):
		case part.Doer == plan.ByMaker:
			makers += part.Cost
		default:
			own += part.Cost
		}
	}
	n := catalog.Cents(Needed(&st.Slots[c.Slot]))
	return own / n, makers / n
}
