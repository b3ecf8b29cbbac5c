package check

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// Which works mend a fault, and what is done to the finished piece, as the check sees it.

// platedAt is the order of plating itself: a work of a higher one is done to the finished
// piece.
const platedAt = 50

// worksOn are the works that mend a fault of a piece: those for its metal, else those for any.
func worksOn(st *catalog.State, piece *catalog.Piece, f *catalog.Finding) []int {
	at := &st.Tables.Defects[f.Defect].By[f.Severity]
	for _, in := range at.WorksIn {
		if in.Metal == piece.Metal {
			return in.Works
		}
	}
	return at.Works
}

// lastWork says whether a work is done to the finished piece.
func lastWork(st *catalog.State, w int) bool { return st.Tables.Works[w].Order.Or(platedAt) > platedAt }

// owed says whether a fault of a piece at a plater's, or back from him, waits for a work that
// others do when it is back.
func owed(st *catalog.State, piece *catalog.Piece, f *catalog.Finding, w int) bool {
	if !lastWork(st, w) || !slices.Contains(worksOn(st, piece, f), w) || slices.Contains(f.Done, w) {
		return false
	}
	if slices.Contains(piece.Sent.After, w) {
		return isAtPlater(piece) || piece.Sent.Was && piece.Stage == catalog.StageBack
	}
	newlyFound := piece.Sent.Known.Set && !slices.Contains(piece.Sent.Known.V, f.ID)
	return isAtPlater(piece) && newlyFound && !slices.Contains(st.Platers[piece.Sent.Plater].Works, w)
}

// staysOn are the findings that a piece hangs with: not those for which nothing but what is
// owed is left to do.
func staysOn(st *catalog.State, piece *catalog.Piece) (left []catalog.Finding) {
	for _, f := range piece.Findings {
		open, due := 0, 0
		for _, w := range worksOn(st, piece, &f) {
			if slices.Contains(f.Done, w) {
				continue
			}
			open++
			if owed(st, piece, &f, w) {
				due++
			}
		}
		if due == 0 || due < open {
			left = append(left, f)
		}
	}
	return left
}

// payOwed adds what is owed to a choice: the shop does it, else the cheapest maker.
func payOwed(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece, one *doneTo) (why string) {
	mine := doneTo{}
	for w := range st.Tables.Works {
		work := &st.Tables.Works[w]
		if !slices.ContainsFunc(piece.Findings, func(f catalog.Finding) bool { return owed(st, piece, &f, w) }) {
			continue
		}
		count, surface, _ := needOf(st, piece, w)
		nobodys := &catalog.Plater{}
		if !whoDoes(st, &mine, nobodys, w, hoursOf(work, count, catalog.Of(surface, slot.Area.Or(0)))) {
			return fmt.Sprintf("nobody does the work %q", work.Name)
		}
		one.breaks = catalog.Either(one.breaks, forMetal(work.Breakage, piece.Metal).Or(0))
		one.grade = min(one.grade, work.Cap.Or(soundWhole))
	}
	one.other += mine.after
	one.makers += mine.makers
	one.days += mine.makersAfter
	return ""
}
