package check

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// plated is a piece plated by the choice's plater, on an estimate or on
// one of his quotes.
func plated(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece,
	c *plan.Choice) (*doneTo, string, string) {
	if c.Plater < 0 || c.Plater >= len(st.Platers) {
		return nil, "plater", fmt.Sprintf("there is no plater number %d", c.Plater)
	}
	plater := &st.Platers[c.Plater]
	if c.Quote < catalog.None || c.Quote >= len(piece.Quotes) {
		return nil, "quote", fmt.Sprintf("piece %q has no quote number %d", piece.ID, c.Quote)
	}
	if isAtPlater(piece) {
		return underWay(st, slot, piece, c)
	}
	var one *doneTo
	var why string
	if c.Quote == catalog.None {
		if hasQuoted(st, piece, c.Plater) {
			return nil, "quote", fmt.Sprintf("plater %q has quoted for piece %q, which replaces his estimates",
				plater.ID, piece.ID)
		}
		one, why = estimated(st, slot, piece, c.Plater, c.Level, true)
	} else {
		quote := &piece.Quotes[c.Quote]
		if quote.Plater != c.Plater {
			return nil, "quote", fmt.Sprintf("quote %q is not by plater %q", quote.ID, plater.ID)
		}
		if overtaken(st, piece, quote) {
			return nil, "quote", fmt.Sprintf("quote %q was named before something came to light", quote.ID)
		}
		one, why = byQuote(st, slot, piece, quote)
	}
	switch {
	case one == nil:
		return nil, "work", why
	case one.work != c.Work:
		return nil, "work", fmt.Sprintf("work is %q, but the state gives %q", c.Work, one.work)
	case one.level != c.Level:
		return nil, "level", fmt.Sprintf("level is %q, but the state gives %q", c.Level, one.level)
	}
	one.stripFee = plater.StripFee
	return one, "", ""
}

// byQuote is a plater's own price, with what he left out taken from the
// estimate of the same level where there is one.
func byQuote(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece, q *catalog.Quote) (*doneTo, string) {
	plater := &st.Platers[q.Plater]
	level := q.Level
	if level == "" && len(plater.Levels) == 1 {
		level = plater.Levels[0].Name
	}
	one := &doneTo{work: q.Work, level: level, plate: q.Cost, fresh: q.Fresh.Or(true), days: q.Days.Or(plater.Days)}
	est, _ := estimated(st, slot, piece, q.Plater, level, false)
	if est == nil {
		if !q.Grade.Set {
			return nil, fmt.Sprintf("quote %q has no grade and there is no estimate to take it from", q.ID)
		}
		est = &doneTo{work: catalog.WorkReplate}
	}
	if one.work == "" {
		one.work = est.work
	}
	if one.work == catalog.WorkRepair { // a plain replate has no works of others
		one.before, one.other, one.makers = est.before, est.after, est.makers
		one.days += est.makersDays + est.makersAfter
		one.breaks = est.lastBreaks
	}
	if one.breaks = catalog.Either(one.breaks, q.Breakage.V); !q.Breakage.Set { // his is about his own work
		one.breaks = est.breaks
	}
	one.refused = q.Refused.Or(est.refused)
	for _, f := range piece.Findings { // what is neither finish nor mended is plated over, and goes on
		over := one.work == catalog.WorkReplate && unmended(st, piece, &f)
		one.growing = one.growing || over && st.Tables.Defects[f.Defect].Progressive
	}
	one.grade = q.Grade.Or(est.grade)
	if l := levelNamed(plater, level); l != nil {
		one.tone = l.Tone.Or(0)
	}
	one.tone = q.Tone.Or(one.tone)
	return one, ""
}

// hasQuoted says whether the plater has quoted for the piece as it is known now.
func hasQuoted(st *catalog.State, piece *catalog.Piece, plater int) bool {
	for i := range piece.Quotes {
		if piece.Quotes[i].Plater == plater && !overtaken(st, piece, &piece.Quotes[i]) {
			return true
		}
	}
	return false
}
