package oracle

import "brightset/catalog"

// What came to light after a price was named: stripping shows it, and it counts at once.

// sortOut takes a piece's findings apart: those a price was named for, and the later ones.
func sortOut(piece *catalog.Piece, q *catalog.Quote) (known, later *catalog.Piece) {
	a, b := *piece, *piece
	a.Findings, b.Findings = nil, nil
	for _, f := range piece.Findings {
		was := !q.Known.Set
		for _, id := range q.Known.V {
			was = was || id == f.ID
		}
		if was {
			a.Findings = append(a.Findings, f)
		} else {
			b.Findings = append(b.Findings, f)
		}
	}
	return &a, &b
}

// stands says whether a quote still stands: not where something came to light since that
// is beyond repair, that the plater refuses, or that asks for work.
func (r *Reader) stands(piece *catalog.Piece, q *catalog.Quote) bool {
	_, later := sortOut(piece, q)
	for i := range later.Findings {
		if len(r.mend(piece, &later.Findings[i])) > 0 {
			return false
		}
	}
	return !r.refuses(later, &r.st.Platers[q.Plater])
}

// toLight adds to the terms of a piece at a plater's what came to light since he had it
// sent: his further hours, the breakage of works that are new, by his factor, his refusing
// it, and the caps. False where he can't go on.
func (r *Reader) toLight(slot, p int, d *done) bool {
	piece := &r.st.Pieces[p]
	plater := &r.st.Platers[piece.Sent.Plater]
	known, later := sortOut(piece, &piece.Sent.Quote)
	if len(later.Findings) == 0 {
		return true
	}
	if r.refuses(later, plater) {
		return false
	}
	rate, holds := or(plater.Hourly, or(r.st.Shop.Hourly, 0)), catalog.Micro(million)
	with := *d
	for w := range r.st.Tables.Works {
		work := &r.st.Tables.Works[w]
		if r.asked(later, w) {
			with.grade = min(with.grade, or(work.Cap, flawless))
		}
		if count, _ := r.needs(later, w); count == 0 {
			continue
		}
		if !within(plater.Works, w) {
			if r.last(w) {
				continue // somebody else does it when it is back
			}
			return false
		}
		cost := func(of *catalog.Piece) catalog.Cents {
			count, share := r.needs(of, w)
			return part(hours(work, count, part(share, or(r.st.Slots[slot].Area, 0))), rate)
		}
		with.plate += cost(piece)
		if count, _ := r.needs(known, w); count > 0 {
			with.plate -= cost(known)
		} else {
			holds = part(holds, million-or(forMetal(work.Breakage, piece.Metal), 0))
		}
	}
	with.breaks = joined(d.breaks, min(million, part(plater.Factor, million-holds)))
	with.refused = joined(d.refused, r.sentBack(later))
	*d = with
	return true
}
