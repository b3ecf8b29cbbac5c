package check

import (
	"fmt"

	"brightset/catalog"
)

// What came to light after a price was named, as the check sees it.

// judgeUnknown gives the findings of a piece that a price was not named for, and the others.
func judgeUnknown(piece *catalog.Piece, q *catalog.Quote) (unknown, known catalog.Piece) {
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

// judgeOvertaken says whether something came to light since a price was named that makes
// it another job: beyond repair, refused by the plater, or more to mend.
func judgeOvertaken(st *catalog.State, piece *catalog.Piece, q *catalog.Quote) bool {
	unknown, _ := judgeUnknown(piece, q)
	for _, f := range unknown.Findings {
		if len(st.Tables.Defects[f.Defect].By[f.Severity].Works) > 0 {
			return true
		}
	}
	return judgeForbidden(st, &unknown, &st.Platers[q.Plater]) != ""
}

// judgeCameToLight adds to the terms of a piece at a plater's what he did not know of when
// he had it sent; it says why where he can't go on.
func judgeCameToLight(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece, one *judgeOne) string {
	plater := &st.Platers[piece.Sent.Plater]
	unknown, known := judgeUnknown(piece, &piece.Sent.Quote)
	if len(unknown.Findings) == 0 {
		return ""
	}
	if why := judgeForbidden(st, &unknown, plater); why != "" {
		return why
	}
	for w := range st.Tables.Works {
		if count, _, _ := judgeNeed(st, &unknown, w); count > 0 && !judgeHasInt(plater.Works, w) {
			return fmt.Sprintf("plater %q does no %s", plater.ID, st.Tables.Works[w].Name)
		}
	}
	whole := catalog.One
	for w := range st.Tables.Works {
		count, _, needed := judgeNeed(st, &unknown, w)
		if !needed {
			continue
		}
		work := &st.Tables.Works[w]
		one.grade = min(one.grade, work.Cap.Or(judgeFull))
		if count == 0 {
			continue // it is done
		}
		cost := func(p *catalog.Piece) catalog.Cents {
			count, surface, _ := judgeNeed(st, p, w)
			hours := judgeHours(work, count, catalog.Of(surface, slot.Area.Or(0)))
			return catalog.Of(hours, plater.Hourly.Or(st.Shop.Hourly.Or(0)))
		}
		one.plate += cost(piece)
		if before, _, _ := judgeNeed(st, &known, w); before > 0 {
			one.plate -= cost(&known)
		} else {
			whole = catalog.Both(whole, catalog.One-judgeAt(work.Breakage, piece.Metal).Or(0))
		}
	}
	one.breaks = catalog.Either(one.breaks, min(catalog.One, catalog.Of(plater.Factor, catalog.One-whole)))
	one.refused = catalog.Either(one.refused, judgeSentBack(st, &unknown))
	return ""
}
