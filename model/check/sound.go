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
func keptOff(st *catalog.State, findings []catalog.Finding) *catalog.Finding {
	for i := range findings {
		f := &findings[i]
		defect := &st.Tables.Defects[f.Defect]
		at := &defect.By[f.Severity]
		switch defect.Soundness {
		case catalog.OfShape, catalog.OfFastening, catalog.OfStrength:
		default:
			continue
		}
		open := len(at.Works) == 0
		for _, w := range at.Works {
			open = open || !slices.Contains(f.Done, w)
		}
		if open && !f.Harmless.Or(at.Harmless.V) {
			return f
		}
	}
	return nil
}

// weakened says whether one of the findings takes strength that no work gives back, of
// those done already and, where the choice mends, of those to be done.
func weakened(st *catalog.State, findings []catalog.Finding, mends bool) bool {
	for _, f := range findings {
		if st.Tables.Defects[f.Defect].Soundness != catalog.OfStrength {
			continue
		}
		back := false
		for _, w := range st.Tables.Defects[f.Defect].By[f.Severity].Works {
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
