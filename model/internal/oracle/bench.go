package oracle

import "brightset/catalog"

// What hangs as it is, and what the shop cleans.

const flawless catalog.Centi = 100_00

func (r *Reader) asIs(slot, p int) []done {
	piece := &r.st.Pieces[p]
	left := r.hangsWith(piece)
	if !piece.Grade.Set && len(piece.Findings) == 0 || piece.Stage != catalog.StageHung && r.mayNotHang(piece, left) {
		return nil
	}
	d, ok := r.complete(slot, piece, r.unplated(piece, catalog.WorkAsIs, left, or(piece.Grade, r.looks(left))))
	if !ok {
		return nil
	}
	return []done{d}
}

// clean takes away what polishing can. It never makes a piece worse than it is, nor better
// than the work can. Of unknown metal nobody knows what polishing does.
func (r *Reader) clean(slot, p int) []done {
	piece, count := &r.st.Pieces[p], 0
	var left []catalog.Finding
	for _, f := range piece.Findings {
		if or(r.at(&f).Polishes, false) {
			count += f.Count
		}
	}
	for _, f := range r.hangsWith(piece) {
		if !or(r.at(&f).Polishes, false) {
			left = append(left, f)
		}
	}
	var work *catalog.Work
	for w := range r.st.Tables.Works {
		if r.st.Tables.Works[w].Name == "clean" {
			work = &r.st.Tables.Works[w]
		}
	}
	if count == 0 || piece.Metal < 0 || work == nil || r.mayNotHang(piece, left) {
		return nil
	}
	now := or(piece.Grade, r.looks(r.hangsWith(piece)))
	d := r.unplated(piece, catalog.WorkClean, left, max(now, min(r.looks(left), or(work.Cap, flawless))))
	d.other = part(hours(work, count, or(r.st.Slots[slot].Area, 0)), or(r.st.Shop.Hourly, 0))
	d.breaks = or(forMetal(work.Breakage, piece.Metal), 0)
	if d, ok := r.complete(slot, piece, d); ok {
		return []done{d}
	}
	return nil
}

// unplated is a piece that shows these findings.
func (r *Reader) unplated(piece *catalog.Piece, work string, shows []catalog.Finding, grade catalog.Centi) done {
	d := done{work: work, plater: nothing, quote: nothing, grade: grade, tone: or(piece.Tone, r.cast(shows))}
	unused := piece.Kind == catalog.OldStock && len(piece.Findings) == 0
	d.fresh = or(piece.Fresh, unused || piece.Kind == catalog.Reproduction)
	d.redone = came(piece) || piece.Kind == catalog.Original && or(piece.Fresh, false)
	d.weak = r.weaker(piece, shows, false)
	for i := range shows {
		d.growing = d.growing || r.st.Tables.Defects[shows[i].Defect].Progressive
	}
	return d
}

// at is what the tables say of a finding's defect at its severity.
func (r *Reader) at(f *catalog.Finding) *catalog.DefectAt {
	return &r.st.Tables.Defects[f.Defect].By[f.Severity]
}

// looks is the grade of a piece that shows these findings. The caps hold on backs too.
func (r *Reader) looks(shows []catalog.Finding) catalog.Centi {
	grade, points := flawless, catalog.Centi(0)
	for i := range shows {
		f := &shows[i]
		grade = min(grade, or(r.at(f).Cap, flawless))
		each := or(r.at(f).Points, 0)
		switch {
		case f.Where == catalog.Back:
		case r.st.Tables.Defects[f.Defect].Measure == catalog.ByCount:
			points += each * catalog.Centi(f.Count)
		default:
			points += part(f.Extent, each)
		}
	}
	return max(0, min(grade, flawless-points))
}

// cast is the tone of what shows: the strongest; the words don't say which of two as strong,
// so the first.
func (r *Reader) cast(shows []catalog.Finding) (tone catalog.Centi) {
	for i := range shows {
		t := or(r.st.Tables.Defects[shows[i].Defect].Tone, 0)
		if shows[i].Where != catalog.Back && max(t, -t) > max(tone, -tone) {
			tone = t
		}
	}
	return tone
}

// hours is the time a work takes: by the piece, by the fault, by the surface concerned.
func hours(w *catalog.Work, count int, surface catalog.Micro) catalog.Micro {
	return or(w.Hours, 0) + or(w.Each, 0)*catalog.Micro(count) + part(or(w.PerArea, 0), surface)
}
