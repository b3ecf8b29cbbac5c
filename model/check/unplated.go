package check

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// Hanging a piece as it is, and cleaning it: what the shop does by itself.

const soundWhole catalog.Centi = 100_00

// asIs is the piece as it lies on the bench.
func asIs(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece) (*doneTo, string, string) {
	if !piece.Grade.Set && len(piece.Findings) == 0 {
		return nil, "work", fmt.Sprintf("piece %q has no grade and no findings, it can't be hung as it is", piece.ID)
	}
	left := staysOn(st, piece)
	if f := keptOff(st, piece, left); f != nil && piece.Stage != catalog.StageHung {
		return nil, "unsound", fmt.Sprintf("piece %q can't hang with finding %q", piece.ID, f.ID)
	}
	one := &doneTo{
		work:    catalog.WorkAsIs,
		grade:   piece.Grade.Or(looks(st, left)),
		tone:    piece.Tone.Or(castFlaws(st, left)),
		fresh:   freshByBirth(piece),
		redone:  refinished(piece),
		growing: grows(st, left),
		weak:    weakened(st, piece, left, false),
	}
	return finished(st, slot, piece, one)
}

// cleaned is the piece after the shop has polished it.
func cleaned(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece) (*doneTo, string, string) {
	before := staysOn(st, piece)
	var left []catalog.Finding
	count := 0
	for _, f := range piece.Findings {
		if st.Tables.Defects[f.Defect].By[f.Severity].Polishes.Or(false) {
			count += f.Count
		} else if slices.ContainsFunc(before, func(g catalog.Finding) bool { return g.ID == f.ID }) {
			left = append(left, f)
		}
	}
	clean := workNamed(st, catalog.CleanWork)
	switch {
	case count == 0:
		return nil, "work", fmt.Sprintf("piece %q has nothing that polishing takes away", piece.ID)
	case piece.Metal == catalog.None:
		return nil, "work", fmt.Sprintf("the metal of piece %q is unknown, it can't be cleaned", piece.ID)
	case clean == nil:
		return nil, "work", "the trade tables have no work \"clean\""
	}
	if f := keptOff(st, piece, left); f != nil {
		return nil, "unsound", fmt.Sprintf("piece %q can't hang with finding %q, which polishing leaves", piece.ID, f.ID)
	}
	asIs := piece.Grade.Or(looks(st, before))
	hours := hoursOf(clean, count, slot.Area.Or(0))
	one := &doneTo{
		work:    catalog.WorkClean,
		other:   catalog.Of(hours, st.Shop.Hourly.Or(0)),
		breaks:  forMetal(clean.Breakage, piece.Metal).Or(0),
		grade:   max(asIs, min(looks(st, left), clean.Cap.Or(soundWhole))),
		tone:    piece.Tone.Or(castFlaws(st, left)),
		fresh:   freshByBirth(piece),
		redone:  refinished(piece),
		growing: grows(st, left),
		weak:    weakened(st, piece, left, false),
	}
	return finished(st, slot, piece, one)
}

// finished is what is done to a piece with what is owed to it since it was plated.
func finished(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece, one *doneTo) (*doneTo, string, string) {
	if why := payOwed(st, slot, piece, one); why != "" {
		return nil, "work", why
	}
	return one, "", ""
}

// looks is the grade of a piece that shows these findings: caps hold
// wherever a fault is, points are not counted on backs.
func looks(st *catalog.State, findings []catalog.Finding) catalog.Centi {
	limit, off := soundWhole, catalog.Centi(0)
	for _, f := range findings {
		defect := &st.Tables.Defects[f.Defect]
		at := &defect.By[f.Severity]
		limit = min(limit, at.Cap.Or(soundWhole))
		if f.Where == catalog.Back {
			continue // no points for what is hidden
		}
		if defect.Measure == catalog.ByCount {
			off += catalog.Centi(f.Count) * at.Points.Or(0)
		} else {
			off += catalog.Of(f.Extent, at.Points.Or(0))
		}
	}
	return max(0, min(limit, soundWhole-off))
}

// castFlaws is the tone of a piece that shows these findings: the strongest
// cast, the first of equals.
func castFlaws(st *catalog.State, findings []catalog.Finding) catalog.Centi {
	cast := catalog.Centi(0)
	for _, f := range findings {
		tone := st.Tables.Defects[f.Defect].Tone.Or(0)
		if f.Where != catalog.Back && distance(tone, 0) > distance(cast, 0) {
			cast = tone
		}
	}
	return cast
}

// grows says whether one of these findings goes on growing; hidden backs
// count here.
func grows(st *catalog.State, findings []catalog.Finding) bool {
	for _, f := range findings {
		if st.Tables.Defects[f.Defect].Progressive {
			return true
		}
	}
	return false
}

// freshByBirth: what the file says, else whether the maker's finish was never used.
func freshByBirth(piece *catalog.Piece) bool {
	unused := piece.Kind == catalog.Reproduction
	if piece.Kind == catalog.OldStock {
		unused = len(piece.Findings) == 0
	}
	return piece.Fresh.Or(unused)
}

// refinished says whether a used piece is called fresh, which it can't be from birth.
func refinished(piece *catalog.Piece) bool {
	return piece.Fresh.Set && piece.Fresh.V && piece.Kind == catalog.Original
}

// hoursOf is the time one trade work takes on one piece: surface in dm2.
func hoursOf(w *catalog.Work, count int, surface catalog.Micro) catalog.Micro {
	return w.Hours.Or(0) + catalog.Micro(count)*w.Each.Or(0) + catalog.Of(w.PerArea.Or(0), surface)
}

func workNamed(st *catalog.State, name string) *catalog.Work {
	for i := range st.Tables.Works {
		if st.Tables.Works[i].Name == name {
			return &st.Tables.Works[i]
		}
	}
	return nil
}

func distance(a, b catalog.Centi) catalog.Centi { return max(a-b, b-a) }
