package oracle

import "brightset/catalog"

// Works on the finished piece, and works that go by the metal.

// mend are the works that mend a fault of a piece: what its metal asks for, if it asks for
// something else than the others.
func (r *Reader) mend(piece *catalog.Piece, f *catalog.Finding) []int {
	for _, own := range r.at(f).WorksIn {
		if own.Metal == piece.Metal {
			return own.Works
		}
	}
	return r.at(f).Works
}

// last says whether a work is done after plating.
func (r *Reader) last(work int) bool {
	order := r.st.Tables.Works[work].Order
	return order.Set && order.V > catalog.PlatingOrder
}

// waits says whether a fault waits for a work that others do once the plater is done: one
// that was agreed when the piece went, or one that came to light since, which he doesn't do.
func (r *Reader) waits(piece *catalog.Piece, f *catalog.Finding, work int) bool {
	there, here := atPlater(piece), piece.Sent.Was && piece.Stage == catalog.StageBack
	if !there && !here || !r.last(work) || !within(r.mend(piece, f), work) || within(f.Done, work) {
		return false
	}
	if within(piece.Sent.After, work) {
		return true
	}
	_, later := sortOut(piece, &piece.Sent.Quote)
	for i := range later.Findings {
		if there && later.Findings[i].ID == f.ID {
			return !within(r.st.Platers[piece.Sent.Plater].Works, work)
		}
	}
	return false
}

// hangsWith are the faults that are left once all that waits is done.
func (r *Reader) hangsWith(piece *catalog.Piece) (left []catalog.Finding) {
	for i := range piece.Findings {
		f, gone, undone := &piece.Findings[i], false, false
		for _, w := range r.mend(piece, f) {
			gone = gone || r.waits(piece, f, w)
			undone = undone || !within(f.Done, w) && !r.waits(piece, f, w)
		}
		if !gone || undone {
			left = append(left, *f)
		}
	}
	return left
}

// complete does what waits, by the shop or else the cheapest maker, in some way a piece is
// dealt with; false where nobody does one of the works.
func (r *Reader) complete(slot int, piece *catalog.Piece, d done) (done, bool) {
	days := 0
	for w := range r.st.Tables.Works {
		waiting := false
		for i := range piece.Findings {
			waiting = waiting || r.waits(piece, &piece.Findings[i], w)
		}
		if !waiting {
			continue
		}
		work := &r.st.Tables.Works[w]
		count, share := r.needs(piece, w)
		who, hourly, long := r.whoDoes(&catalog.Plater{}, w)
		if who == nobody {
			return d, false
		}
		cost := part(hours(work, count, part(share, or(r.st.Slots[slot].Area, 0))), hourly)
		d.other += cost
		if who == aMaker {
			d.makers += cost
			days = max(days, long)
		}
		d.breaks = joined(d.breaks, or(forMetal(work.Breakage, piece.Metal), 0))
		d.grade = min(d.grade, or(work.Cap, flawless))
	}
	d.days += days
	return d, true
}
