package check

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// Whether a piece can hang and what it bears, as the check sees it. Neither has to do
// with how it looks.

// keptOff is the first finding that keeps a piece from hanging: of shape, fastening
// or strength, not harmless, and with a work that mends it still to be done, or none that
// does. None is nil.
func keptOff(st *catalog.State, piece *catalog.Piece, findings []catalog.Finding) *catalog.Finding {
	for i := range findings {
		f := &findings[i]
		at := &st.Tables.Defects[f.Defect].By[f.Severity]
		if unmended(st, piece, f) && !f.Harmless.Or(at.Harmless.V) {
			return f
		}
	}
	return nil
}

// unmended says whether a finding is of shape, fastening or strength, with a work that mends
// it still to be done, or none that does.
func unmended(st *catalog.State, piece *catalog.Piece, f *catalog.Finding) bool {
	switch st.Tables.Defects[f.Defect].Soundness {
	case catalog.OfShape, catalog.OfFastening, catalog.OfStrength:
	default:
		return false
	}
	mend := worksOn(st, piece, f)
	return len(mend) == 0 || slices.ContainsFunc(mend, func(w int) bool { return !slices.Contains(f.Done, w) })
}

// weakened says whether one of the findings takes strength that no work gives back, of
// those done already and, where the choice mends, of those to be done.
func weakened(st *catalog.State, piece *catalog.Piece, findings []catalog.Finding, mends bool) bool {
	for _, f := range findings {
		if st.Tables.Defects[f.Defect].Soundness != catalog.OfStrength {
			continue
		}
		back := false
		for _, w := range worksOn(st, piece, &f) {
			back = back || st.Tables.Works[w].Restores.V && (mends || slices.Contains(f.Done, w))
		}
		if !back {
			return true
		}
	}
	return false
}

// checkBears: nothing that is weaker than new where a hand or a load hangs on it, but for
// what hangs there already.
func (j *audit) checkBears(c *plan.Choice, where, prefix string) {
	if j.st.Slots[c.Slot].Bears && c.Weak && j.st.Pieces[c.Piece].Stage != catalog.StageHung {
		j.report(prefix+"bears", where, "is weaker than new, and a hand or a load hangs on it")
	}
}
