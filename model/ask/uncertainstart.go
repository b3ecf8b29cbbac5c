package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// uncertainStartingValues lists what stands in the trade tables and was not replaced.
func uncertainStartingValues(pl *plan.Plan) []uncertain {
	st := pl.Of
	var all []uncertain
	add := func(o InformationValue, used bool, state func(st *catalog.State, high bool)) {
		o.Piece, o.Plater, o.Planned = catalog.None, catalog.None, used
		all = append(all, uncertain{o, lowAndHigh(state)})
	}
	if slices.ContainsFunc(st.Slots, func(s catalog.Slot) bool { return starting(s.Rescue) }) {
		add(InformationValue{
			Figure: FigureRescue,
			Metal:  catalog.None,
			Work:   catalog.None,
		}, true, func(st *catalog.State, high bool) {
			for i := range st.Slots {
				times(&st.Slots[i].Rescue, high, 1, 2, 3, 2)
			}
		})
	}
	if starting(st.Shop.Hourly) {
		add(InformationValue{
			Figure: FigureHourly,
			Metal:  catalog.None,
			Work:   catalog.None,
		}, true, func(st *catalog.State, high bool) {
			times(&st.Shop.Hourly, high, 3, 4, 5, 4)
		})
	}
	for w := range st.Tables.Works {
		if t := &st.Tables.Works[w]; !starting(t.Hours) && !starting(t.Each) && !starting(t.PerArea) {
			continue
		}
		used := usedIn(pl, func(c *plan.Choice) bool {
			return slices.ContainsFunc(c.Parts, func(p plan.Part) bool { return p.Work == w })
		})
		add(InformationValue{Figure: FigureHours, Metal: catalog.None, Work: w}, used, func(st *catalog.State, high bool) {
			t := &st.Tables.Works[w]
			times(&t.Hours, high, 1, 2, 3, 2)
			times(&t.Each, high, 1, 2, 3, 2)
			times(&t.PerArea, high, 1, 2, 3, 2)
		})
	}
	return append(all, uncertainMetals(pl)...)
}

// uncertainMetals: how often pieces of a metal break, by itself and in every trade work.
func uncertainMetals(pl *plan.Plan) []uncertain {
	st := pl.Of
	var all []uncertain
	for m := range st.Tables.Metals {
		of := func(c *plan.Choice) bool { return st.Pieces[c.Piece].Metal == m && c.Breakage > 0 }
		if !starting(st.Tables.Metals[m].Base) ||
			!slices.ContainsFunc(st.Pieces, func(p catalog.Piece) bool { return p.Metal == m }) {
			continue
		}
		all = append(all, uncertain{
			InformationValue: InformationValue{
				Figure:  FigureBase,
				Piece:   catalog.None,
				Plater:  catalog.None,
				Metal:   m,
				Work:    catalog.None,
				Planned: usedIn(pl, of),
			},
			ways: lowAndHigh(func(st *catalog.State, high bool) {
				half(&st.Tables.Metals[m].Base, high)
				for w := range st.Tables.Works {
					if list := st.Tables.Works[w].Breakage; m < len(list) {
						half(&list[m], high)
					}
				}
			}),
		})
	}
	return all
}

// lowAndHigh are the two ways in which a starting value may be off.
func lowAndHigh(change func(st *catalog.State, high bool)) []turnout {
	return []turnout{
		{likely: quarter, state: func(st *catalog.State) { change(st, false) }},
		{likely: quarter, state: func(st *catalog.State) { change(st, true) }},
	}
}

func starting[T any](v catalog.Val[T]) bool { return v.Set && v.From.Source == catalog.StartingValue }

// half is a breakage half or twice as high.
func half(v *catalog.Val[catalog.Micro], high bool) {
	times(v, high, 1, 2, 2, 1)
	v.V = min(v.V, catalog.One)
}

// times takes a starting value by one ratio or another; what somebody gave stays.
func times[T ~int64](v *catalog.Val[T], high bool, lowBy, lowIn, highBy, highIn T) {
	switch {
	case !starting(*v):
	case high:
		v.V = v.V * highBy / highIn
	default:
		v.V = v.V * lowBy / lowIn
	}
}
