package oracle

import "brightset/catalog"

// What keeps a piece from hanging, and from bearing a load, whatever it looks like.

// mayNotHang says whether one of the faults is of shape, fastening or strength, matters,
// and is not mended yet.
func (r *Reader) mayNotHang(piece *catalog.Piece, shows []catalog.Finding) bool {
	for i := range shows {
		f := &shows[i]
		if r.bad(piece, f) && !or(f.Harmless, or(r.at(f).Harmless, false)) {
			return true
		}
	}
	return false
}

// bad says whether a fault is of shape, fastening or strength and not mended yet.
func (r *Reader) bad(piece *catalog.Piece, f *catalog.Finding) bool {
	left := 0
	for _, w := range r.mend(piece, f) {
		if !within(f.Done, w) {
			left++
		}
	}
	done := left == 0 && len(r.mend(piece, f)) > 0
	kind := r.st.Tables.Defects[f.Defect].Soundness
	return !done && (kind == catalog.OfShape || kind == catalog.OfFastening || kind == catalog.OfStrength)
}

// weaker says whether a piece with these faults bears less than a new one; mending them
// counts only by works that restore strength.
func (r *Reader) weaker(piece *catalog.Piece, shows []catalog.Finding, mended bool) bool {
	lost := 0
	for i := range shows {
		f := &shows[i]
		if r.st.Tables.Defects[f.Defect].Soundness != catalog.OfStrength {
			continue
		}
		lost++
		for _, w := range r.mend(piece, f) {
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
