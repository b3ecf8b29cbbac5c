package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

const quarter = catalog.One / 4

// spreadGrade is by how much a plater's grade may be off, in hundredths.
const spreadGrade = 3_00

// uncertainFigures lists the figures that may turn out otherwise, those the plan rests on
// first.
func uncertainFigures(plan *plan.Plan, choices [][]plan.Choice) []uncertain {
	all := append(uncertainQuotes(plan, choices), uncertainLeads(plan)...)
	all = append(all, uncertainStartingValues(plan)...)
	slices.SortStableFunc(all, func(a, b uncertain) int {
		switch {
		case a.Planned == b.Planned:
			return 0
		case a.Planned:
			return -1
		}
		return 1
	})
	return all
}

// uncertainQuotes lists pieces and platers with a choice whose price, breakage or grade may
// be off.
func uncertainQuotes(pl *plan.Plan, choices [][]plan.Choice) []uncertain {
	st := pl.Of
	var all []uncertain
	refuses := refusers(choices)
	seen := map[InformationValue]bool{}
	add := func(c *plan.Choice, figure choice.Figure, isOpen bool) {
		o := InformationValue{Piece: c.Piece, Plater: c.Plater, Figure: figure, Metal: catalog.None, Work: catalog.None}
		if !isOpen || seen[o] {
			return
		}
		seen[o] = true
		o.Planned = usedIn(pl, func(k *plan.Choice) bool { return k.Piece == c.Piece && k.Plater == c.Plater })
		all = append(all, uncertain{o, o.ofQuote(st, c, refuses[[2]int{c.Piece, c.Plater}])})
	}
	for _, choices := range choices {
		for i := range choices {
			c := &choices[i]
			if !c.Plated() || !(program.Admitted(st, c, program.Planned) || program.Admitted(st, c, program.Reserve)) {
				continue
			}
			add(c, choice.FigurePlating, choice.PlateSpread(st, c) != (choice.Span{}))
			add(c, choice.FigureBreakage, !c.Sent && !st.Pieces[c.Piece].Bare() && (c.Refused > 0 || breakageOpen(st, c)))
			add(c, choice.FigureGrade, c.Quote == catalog.None || !st.Pieces[c.Piece].Quotes[c.Quote].Grade.Set)
		}
	}
	return all
}

// ofQuote gives the ways in which a figure of a piece at a plater may turn out.
func (o *InformationValue) ofQuote(st *catalog.State, at *plan.Choice, mayRefuse bool) []turnout {
	way := func(likely catalog.Micro, worse bool, change func(*plan.Choice)) turnout {
		return turnout{likely: likely, worse: worse, choice: func(c *plan.Choice) {
			if c.Piece == o.Piece && c.Plater == o.Plater {
				change(c)
			}
		}}
	}
	switch o.Figure {
	case choice.FigurePlating:
		falls, rises := fallsAndRises(choice.PlateSpread(st, at))
		return []turnout{
			way(falls, false, func(c *plan.Choice) { c.Plate = max(c.Plate-choice.PlateSpread(st, c).Below, 0) }),
			way(rises, !o.fillsLot(st, mayRefuse), func(c *plan.Choice) { c.Plate += choice.PlateSpread(st, c).Above }),
		}
	case choice.FigureGrade:
		return []turnout{
			way(quarter, !o.gradeMatched(st), func(c *plan.Choice) { c.Grade = max(c.Grade-spreadGrade, 0) }),
			way(quarter, false, func(c *plan.Choice) { c.Grade = min(c.Grade+spreadGrade, 100_00) }),
		}
	}
	kept := catalog.One - at.Refused
	keeps := func(change func(*plan.Choice)) func(*plan.Choice) {
		return func(c *plan.Choice) {
			c.Refused = 0
			if breakageOpen(st, c) {
				change(c)
			}
		}
	}
	all := []turnout{
		way(kept/4, false, keeps(func(c *plan.Choice) { c.Breakage /= 2 })),
		way(kept/4, !mayRefuse && !keepsAny(st), keeps(func(c *plan.Choice) { c.Breakage = min(2*c.Breakage, catalog.One) })),
	}
	if at.Refused > 0 {
		back := way(at.Refused, true, func(c *plan.Choice) { c.Refused = catalog.One })
		back.gone = func(st *catalog.State) {
			st.Bans = append(st.Bans, catalog.Ban{Filter: catalog.Filter{Slot: catalog.None, Piece: o.Piece, Plater: o.Plater}})
		}
		all = append(all, way(kept-kept/4*2, false, keeps(func(*plan.Choice) {})), back)
	}
	return all
}

// gradeMatched says whether the grade has to match that of another piece: then a lower
// one may go with what the present one does not.
func (o *InformationValue) gradeMatched(st *catalog.State) bool {
	return slices.ContainsFunc(st.Matches, func(m catalog.Match) bool {
		return m.GradeWithin.Set &&
			slices.ContainsFunc(m.Slots, func(s int) bool { return choice.FitsSlot(&st.Pieces[o.Piece], s) })
	})
}

// fillsLot says whether a dearer piece may make a lot cheaper: its whole price counts
// towards his minimum, though it is paid only if he keeps the piece, it comes and it fits.
func (o *InformationValue) fillsLot(st *catalog.State, mayRefuse bool) bool {
	p := &st.Pieces[o.Piece]
	mayNotFit := p.Kind == catalog.Reproduction && st.Shop.Misfit.Or(0) > 0
	return st.Platers[o.Plater].Minimum > 0 && (mayRefuse || mayNotFit || p.Chance < catalog.One)
}

// refusers are the pieces that a plater may send back, each with the plater: that he
// keeps it is then for the better, even if it breaks more often.
func refusers(choices [][]plan.Choice) map[[2]int]bool {
	all := map[[2]int]bool{}
	for s := range choices {
		for i := range choices[s] {
			if c := &choices[s][i]; c.Refused > 0 {
				all[[2]int{c.Piece, c.Plater}] = true
			}
		}
	}
	return all
}

// keepsAny says whether pieces of the object's own are worth keeping somewhere: then one held in reserve is
// hung more often, for the better, where what it is held for breaks more often.
func keepsAny(st *catalog.State) bool {
	return slices.ContainsFunc(st.Slots, func(s catalog.Slot) bool { return s.Keep > 0 })
}

// breakageOpen says whether nobody has vouched for how often it breaks.
func breakageOpen(st *catalog.State, c *plan.Choice) bool {
	return c.Breakage > 0 && !c.Sent && (c.Quote == catalog.None || !st.Pieces[c.Piece].Quotes[c.Quote].Breakage.Set)
}

// fallsAndRises is how likely a price is to fall and to rise: one in two together, in
// proportion to how far it may, as in a triangle over the span with its top at the price.
func fallsAndRises(off choice.Span) (falls, rises catalog.Micro) {
	both := off.Below + off.Above
	if both == 0 {
		return quarter, quarter
	}
	falls = catalog.Micro(2 * int64(quarter) * int64(off.Below) / int64(both))
	return falls, 2*quarter - falls
}

// usedIn says whether the plan hangs or holds a choice of some kind.
func usedIn(pl *plan.Plan, which func(*plan.Choice) bool) bool {
	return slices.ContainsFunc(pl.Lines, func(l plan.Line) bool {
		return which(l.Choice) || (l.Fallback != nil && which(l.Fallback))
	})
}

// uncertainLeads: a piece that may or may not come does, or does not.
func uncertainLeads(pl *plan.Plan) []uncertain {
	st := pl.Of
	var all []uncertain
	for i := range st.Pieces {
		chance := st.Pieces[i].Chance
		if chance <= 0 || chance >= catalog.One || st.Pieces[i].Gone() {
			continue
		}
		all = append(all, uncertain{
			InformationValue: InformationValue{Figure: FigureLead, Piece: i, Plater: catalog.None, Metal: catalog.None,
				Work: catalog.None,
				Planned: usedIn(pl, func(c *plan.Choice) bool { return c.Piece == i }) ||
					slices.ContainsFunc(tradesMade(st, pl), func(t catalog.Trade) bool { return t.Give == i })},
			ways: []turnout{
				{likely: catalog.One - chance, worse: true, state: func(st *catalog.State) { st.Pieces[i].Chance = 0 },
					gone: func(st *catalog.State) { st.Pieces[i].Stage = catalog.StageLost }},
				{likely: chance, state: func(st *catalog.State) { st.Pieces[i].Chance = catalog.One }},
			},
		})
	}
	return all
}
