package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// fullGrade is the grade of a piece without a fault.
const fullGrade catalog.Centi = 100_00

// reading is what the findings say about how a piece looks.
type reading struct {
	grade catalog.Centi
	tone  catalog.Centi
	rests []plan.Assumption // of the grade
	tones []plan.Assumption // of the tone
}

// read derives grade and tone from the findings that left doesn't leave out:
// the grade is the least cap of a fault, or 100 minus the points off, not below
// 0. Faults on hidden backs cost no points and cast no tone, but their caps hold:
// a piece with its post gone can't be hung, wherever the post was. The tone is
// that of the strongest cast; the earlier finding where two are equally strong.
func read(st *catalog.State, p *catalog.Piece, stays func(*catalog.Finding) bool) reading {
	least, points := fullGrade, catalog.Centi(0)
	var capRests, pointRests, toneRests []plan.Assumption
	var r reading
	for i := range p.Findings {
		f := &p.Findings[i]
		if !stays(f) {
			continue
		}
		d := &st.Tables.Defects[f.Defect]
		by := d.By[f.Severity]
		if by.Cap.Set && by.Cap.V <= least {
			if by.Cap.V < least {
				capRests = nil
			}
			least = by.Cap.V
			capRests = append(capRests, assumed(by.Cap, "highest grade with %s %s", f.Severity, d.Name)...)
		}
		if f.Where == catalog.Back {
			continue
		}
		if off := pointsOff(d, f); off > 0 {
			points += off
			pointRests = append(pointRests, assumed(by.Points, "points off for %s %s", f.Severity, d.Name)...)
		}
		if d.Tone.Set && plan.Abs(d.Tone.V) > plan.Abs(r.tone) {
			r.tone = d.Tone.V
			toneRests = assumed(d.Tone, "tone of %s", d.Name)
		}
	}
	r.grade = max(0, min(least, fullGrade-points))
	if least < fullGrade && least <= fullGrade-points {
		r.rests = append(r.rests, capRests...)
	}
	if points > 0 && fullGrade-points <= least {
		r.rests = append(r.rests, pointRests...)
	}
	r.tones = toneRests
	return r
}

// pointsOff is what one finding costs: extent x points, or count x points.
func pointsOff(d *catalog.Defect, f *catalog.Finding) catalog.Centi {
	points := d.By[f.Severity].Points.Or(0)
	if d.Measure == catalog.ByCount {
		return catalog.Centi(f.Count) * points
	}
	return catalog.Of(f.Extent, points)
}

// growing says whether one of the findings that stay goes on growing, be it on
// a back.
func growing(st *catalog.State, p *catalog.Piece, stays func(*catalog.Finding) bool) bool {
	for i := range p.Findings {
		f := &p.Findings[i]
		if st.Tables.Defects[f.Defect].Progressive && stays(f) {
			return true
		}
	}
	return false
}

// every keeps all findings: a piece as it is.
func every(*catalog.Finding) bool { return true }

// unpolished keeps the findings that a piece stays with once it is polished.
func unpolished(st *catalog.State, p *catalog.Piece) func(*catalog.Finding) bool {
	left := stays(st, p)
	return func(f *catalog.Finding) bool { return !polishes(st, f) && left(f) }
}

// polishes says whether cleaning takes a finding away.
func polishes(st *catalog.State, f *catalog.Finding) bool {
	return st.Tables.Defects[f.Defect].By[f.Severity].Polishes.Or(false)
}
