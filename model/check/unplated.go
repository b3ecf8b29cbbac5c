package check

import (
	"fmt"

	"brightset/catalog"
)

// Hanging a piece as it is, and cleaning it: what the shop does by itself.

const judgeFull catalog.Centi = 100_00

// judgeAsIs is the piece as it lies on the bench.
func judgeAsIs(st *catalog.State, piece *catalog.Piece) (*judgeOne, string, string) {
	if !piece.Grade.Set && len(piece.Findings) == 0 {
		return nil, "work", fmt.Sprintf("piece %q has no grade and no findings, it can't be hung as it is", piece.ID)
	}
	if f := judgeKeptOff(st, piece.Findings); f != nil && piece.Stage != catalog.StageHung {
		return nil, "unsound", fmt.Sprintf("piece %q can't hang with finding %q", piece.ID, f.ID)
	}
	return &judgeOne{
		work:    catalog.WorkAsIs,
		grade:   piece.Grade.Or(judgeLooks(st, piece.Findings)),
		tone:    piece.Tone.Or(judgeCast(st, piece.Findings)),
		fresh:   judgeFreshByBirth(piece),
		redone:  judgeRefinished(piece),
		growing: judgeGrows(st, piece.Findings),
		weak:    judgeWeak(st, piece.Findings, false),
	}, "", ""
}

// judgeClean is the piece after the shop has polished it.
func judgeClean(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece) (*judgeOne, string, string) {
	var left []catalog.Finding
	count := 0
	for _, f := range piece.Findings {
		if st.Tables.Defects[f.Defect].By[f.Severity].Polishes.Or(false) {
			count += f.Count
		} else {
			left = append(left, f)
		}
	}
	clean := judgeWorkNamed(st, catalog.CleanWork)
	switch {
	case len(left) == len(piece.Findings):
		return nil, "work", fmt.Sprintf("piece %q has nothing that polishing takes away", piece.ID)
	case piece.Metal == catalog.None:
		return nil, "work", fmt.Sprintf("the metal of piece %q is unknown, it can't be cleaned", piece.ID)
	case clean == nil:
		return nil, "work", "the trade tables have no work \"clean\""
	}
	if f := judgeKeptOff(st, left); f != nil {
		return nil, "unsound", fmt.Sprintf("piece %q can't hang with finding %q, which polishing leaves", piece.ID, f.ID)
	}
	asIs := piece.Grade.Or(judgeLooks(st, piece.Findings))
	hours := judgeHours(clean, count, slot.Area.Or(0))
	return &judgeOne{
		work:    catalog.WorkClean,
		other:   catalog.Of(hours, st.Shop.Hourly.Or(0)),
		breaks:  judgeAt(clean.Breakage, piece.Metal).Or(0),
		grade:   max(asIs, min(judgeLooks(st, left), clean.Cap.Or(judgeFull))),
		tone:    piece.Tone.Or(judgeCast(st, left)),
		fresh:   judgeFreshByBirth(piece),
		redone:  judgeRefinished(piece),
		growing: judgeGrows(st, left),
		weak:    judgeWeak(st, left, false),
	}, "", ""
}

// judgeLooks is the grade of a piece that shows these findings: caps hold
// wherever a fault is, points are not counted on backs.
func judgeLooks(st *catalog.State, findings []catalog.Finding) catalog.Centi {
	limit, off := judgeFull, catalog.Centi(0)
	for _, f := range findings {
		defect := &st.Tables.Defects[f.Defect]
		at := &defect.By[f.Severity]
		limit = min(limit, at.Cap.Or(judgeFull))
		if f.Where == catalog.Back {
			continue // no points for what is hidden
		}
		if defect.Measure == catalog.ByCount {
			off += catalog.Centi(f.Count) * at.Points.Or(0)
		} else {
			off += catalog.Of(f.Extent, at.Points.Or(0))
		}
	}
	return max(0, min(limit, judgeFull-off))
}

// judgeCast is the tone of a piece that shows these findings: the strongest
// cast, the first of equals.
func judgeCast(st *catalog.State, findings []catalog.Finding) catalog.Centi {
	cast := catalog.Centi(0)
	for _, f := range findings {
		tone := st.Tables.Defects[f.Defect].Tone.Or(0)
		if f.Where != catalog.Back && judgeDistance(tone, 0) > judgeDistance(cast, 0) {
			cast = tone
		}
	}
	return cast
}

// judgeGrows says whether one of these findings goes on growing; hidden backs
// count here.
func judgeGrows(st *catalog.State, findings []catalog.Finding) bool {
	for _, f := range findings {
		if st.Tables.Defects[f.Defect].Progressive {
			return true
		}
	}
	return false
}

// judgeFreshByBirth: what the file says, else whether the maker's finish was never used.
func judgeFreshByBirth(piece *catalog.Piece) bool {
	unused := piece.Kind == catalog.Reproduction
	if piece.Kind == catalog.OldStock {
		unused = len(piece.Findings) == 0
	}
	return piece.Fresh.Or(unused)
}

// judgeRefinished says whether a used piece is called fresh, which it can't be from birth.
func judgeRefinished(piece *catalog.Piece) bool {
	return piece.Fresh.Set && piece.Fresh.V && piece.Kind == catalog.Original
}

// judgeHours is the time one trade work takes on one piece: surface in dm2.
func judgeHours(w *catalog.Work, count int, surface catalog.Micro) catalog.Micro {
	return w.Hours.Or(0) + catalog.Micro(count)*w.Each.Or(0) + catalog.Of(w.PerArea.Or(0), surface)
}

func judgeWorkNamed(st *catalog.State, name string) *catalog.Work {
	for i := range st.Tables.Works {
		if st.Tables.Works[i].Name == name {
			return &st.Tables.Works[i]
		}
	}
	return nil
}

func judgeDistance(a, b catalog.Centi) catalog.Centi { return max(a-b, b-a) }
