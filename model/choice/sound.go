package choice

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// Soundness is not finish: how good a piece looks says nothing of whether it lies on its
// seat, can be fastened and holds. A fault of shape, fastening or strength keeps it from
// hanging until it is mended, unless it is said to be harmless.

// unlessHarmless is what to write in the files where a fault keeps nothing from hanging.
const unlessHarmless = ", unless it is marked harmless"

// unsound is why a piece can't hang with the findings that stay, "" where it can.
func unsound(st *catalog.State, p *catalog.Piece, stays func(*catalog.Finding) bool) string {
	for i := range p.Findings {
		f := &p.Findings[i]
		if LeftByReplating(st, p, f) && stays(f) && !harmless(st, f) {
			d := &st.Tables.Defects[f.Defect]
			return fmt.Sprintf("%s %s is a fault of %s: it can't hang until that is mended", f.Severity, d.Name,
				d.Soundness)
		}
	}
	return ""
}

// harmless says whether a fault keeps nothing from hanging: what the finding says, else
// the table of its defect at its severity.
func harmless(st *catalog.State, f *catalog.Finding) bool {
	return f.Harmless.Or(st.Tables.Defects[f.Defect].By[f.Severity].Harmless.Or(false))
}

// mended says whether all works that mend a fault are done already.
func mended(st *catalog.State, p *catalog.Piece, f *catalog.Finding) bool {
	works := worksOf(st, p, f)
	for _, w := range works {
		if !slices.Contains(f.Done, w) {
			return false
		}
	}
	return len(works) > 0
}

// LeftByReplating says whether plating alone leaves a finding as it was: a fault of shape,
// fastening or strength that is not mended yet.
func LeftByReplating(st *catalog.State, p *catalog.Piece, f *catalog.Finding) bool {
	kind := st.Tables.Defects[f.Defect].Soundness
	return kind != catalog.OfFinish && kind != "" && !mended(st, p, f)
}

// weak says whether a piece bears less than when it was new: it was mended once and came
// back so, or one of the findings that stay is of strength, and no work done to it gives
// that back. Harmless or not, it is no piece for a hand or a load. mends is whether the
// works that the findings need are part of the choice.
func weak(st *catalog.State, p *catalog.Piece, stays func(*catalog.Finding) bool, mends bool) bool {
	if p.Weak {
		return true
	}
	for i := range p.Findings {
		f := &p.Findings[i]
		if st.Tables.Defects[f.Defect].Soundness == catalog.OfStrength && stays(f) && !restored(st, p, f, mends) {
			return true
		}
	}
	return false
}

// ComesBackWeak says whether a piece that is at a plater's bears less than when it was new
// once he has done what it was sent for: what was found on it does not show any more then.
func ComesBackWeak(st *catalog.State, p *catalog.Piece) bool {
	return weak(st, p, every, p.Sent.Work == catalog.WorkRepair)
}

// restored says whether a work that restores strength is done to a fault, or will be.
func restored(st *catalog.State, p *catalog.Piece, f *catalog.Finding, mends bool) bool {
	return slices.ContainsFunc(worksOf(st, p, f), func(w int) bool {
		return st.Tables.Works[w].Restores.Or(false) && (mends || slices.Contains(f.Done, w))
	})
}
