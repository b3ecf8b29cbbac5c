package oracle

import "brightset/catalog"

// What keeps a piece from hanging, and from bearing a load, whatever it looks like.

// mayNotHang says whether one of the faults is of shape, fastening or strength, matters,
// and is not mended yet.
func (r *Reader) mayNotHang(shows []catalog.Finding) bool {
	for i := range shows {
		f := &shows[i]
		left := 0
		for _, w := range r.at(f).Works {
			if !within(f.Done, w) {
				left++
			}
		}
		done := left == 0 && len(r.at(f).Works) > 0
		kind := r.st.Tables.Defects[f.Defect].Soundness
		matters := kind == catalog.OfShape || kind == catalog.OfFastening || kind == catalog.OfStrength
		if matters && !done && !or(f.Harmless, or(r.at(f).Harmless, false)) {
			return true
		}
	}
	return false
}

// weaker says whether a piece with these faults bears less than a new one; mending them
// counts only by works that restore strength.
func (r *Reader) weaker(shows []catalog.Finding, mended bool) bool {
	lost := 0
	for i := range shows {
		f := &shows[i]
		if r.st.Tables.Defects[f.Defect].Soundness != catalog.OfStrength {
			continue
		}
		lost++
		for _, w := range r.at(f).Works {
			if or(r.st.Tables.Works[w].Restores, false) && (mended || within(f.Done, w)) {
				lost--
				break
			}
		}
	}
	return lost > 0
}

// tooWeak says whether a choice is no good for what a hand or a load hangs on. What hangs
// there hangs there.
func (r *Reader) tooWeak(c *Choice) bool {
	return c.Weak && r.st.Slots[c.Slot].Bears && r.st.Pieces[c.Piece].Stage != catalog.StageHung
}
