package check

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// What came to light after a price was named, as the check sees it.

// unknownFindings gives the findings of a piece that a price was not named for, and the others.
func unknownFindings(piece *catalog.Piece, q *catalog.Quote) (unknown, known catalog.Piece) {
	unknown, known = *piece, *piece
	unknown.Findings, known.Findings = nil, nil
	for _, f := range piece.Findings {
		there := !q.Known.Set
		for _, id := range q.Known.V {
			there = there || id == f.ID
		}
		if there {
			known.Findings = append(known.Findings, f)
		} else {
			unknown.Findings = append(unknown.Findings, f)
		}
	}
	return unknown, known
}

// overtaken says whether something came to light since a price was named that makes
// it another job: beyond repair, refused by the plater, or more to mend.
func overtaken(st *catalog.State, piece *catalog.Piece, q *catalog.Quote) bool {
	unknown, _ := unknownFindings(piece, q)
	for _, f := range unknown.Findings {
		if len(worksOn(st, piece, &f)) > 0 {
			return true
		}
	}
	return forbidden(st, &unknown, &st.Platers[q.Plater]) != ""
}

// cameToLight adds to the terms of a piece at a plater's what he did not know of when
// he had it sent; it says why where he can't go on.
func cameToLight(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece, one *doneTo) string {
	plater := &st.Platers[piece.Sent.Plater]
	unknown, known := unknownFindings(piece, &piece.Sent.Quote)
	if len(unknown.Findings) == 0 {
		return ""
	}
	if why := forbidden(st, &unknown, plater); why != "" {
		return why
	}
	for w := range st.Tables.Works {
		if count, _, _ := needOf(st, &unknown, w); count > 0 && !slices.Contains(plater.Works, w) &&
			!lastWork(st, w) {
			return fmt.Sprintf("plater %q does no %s", plater.ID, st.Tables.Works[w].Name)
		}
	}
	whole := catalog.One
	for w := range st.Tables.Works {
		count, _, needed := needOf(st, &unknown, w)
		if !needed {
			continue
		}
		work := &st.Tables.Works[w]
		one.grade = min(one.grade, work.Cap.Or(soundWhole))
		if count == 0 {
			continue // it is done
		}
		if !slices.Contains(plater.Works, w) {
			continue // others do it when it is back
		}
		cost := func(p *catalog.Piece) catalog.Cents {
			count, surface, _ := needOf(st, p, w)
			hours := hoursOf(work, count, catalog.Of(surface, slot.Area.Or(0)))
			return catalog.Of(hours, plater.Hourly.Or(st.Shop.Hourly.Or(0)))
		}
		one.plate += cost(piece)
		if before, _, _ := needOf(st, &known, w); before > 0 {
			one.plate -= cost(&known)
		} else {
			whole = catalog.Both(whole, catalog.One-forMetal(work.Breakage, piece.Metal).Or(0))
		}
	}
	one.breaks = catalog.Either(one.breaks, min(catalog.One, catalog.Of(plater.Factor, catalog.One-whole)))
	one.refused = catalog.Either(one.refused, sentBack(st, &unknown))
	return ""
}
