package choice

import (
	"brightset/catalog"
)

// AsIsGrade is the grade of a piece as it lies: given by eye, else by its findings;
// false where there is neither.
func AsIsGrade(st *catalog.State, piece int) (catalog.Centi, bool) {
	d, why := asIsDraft(st, piece)
	return d.grade, why == ""
}

// asIs adds the choice of hanging a piece as it is. It costs nothing and can't
// break, but for what is still to be done to it after plating. Its grade is the one given by
// eye, else what the findings say; with neither there is no such choice, nor where a fault
// keeps the piece from hanging; if it hangs already that is a fact.
func (g *deriver) asIs(piece int) {
	d, why := asIsDraft(g.st, piece)
	fault := ""
	if why != "" {
		fault = "nobody has looked at it closely yet"
	} else if p := &g.st.Pieces[piece]; p.Stage != catalog.StageHung {
		if fault = unsound(g.st, p, stays(g.st, p)); fault != "" {
			why = fault + unlessHarmless
		} else {
			why = d.finish(g.st, g.slot, piece)
		}
	}
	if why != "" {
		g.out(Exclusion{Piece: piece, Work: catalog.WorkAsIs, Plater: catalog.None, Why: why, Fault: fault})
		return
	}
	g.add(piece, d)
}

func asIsDraft(st *catalog.State, piece int) (draft, string) {
	p := &st.Pieces[piece]
	if !p.Grade.Set && len(p.Findings) == 0 {
		return draft{}, "it has no grade and no findings: give a grade or findings, else it can't be hung as it is"
	}
	d := unplated(st, p, catalog.WorkAsIs)
	left := stays(st, p)
	d.look(p, read(st, p, left))
	d.growing, d.weak = growing(st, p, left), weak(st, p, left, false)
	return d, ""
}

// unplated is what as-is and clean have in common. What came back from a plater is
// refinished, and so is a used piece that is called fresh: it can't be so from its maker.
func unplated(st *catalog.State, p *catalog.Piece, work string) draft {
	return draft{
		work: work, plater: catalog.None, quote: catalog.None,
		fresh:  FreshAsItIs(p),
		redone: wasPlated(p) || p.Kind == catalog.Original && p.Fresh.Or(false),
		days:   Arrival(st, p),
	}
}

// FreshAsItIs says whether a piece is freshly finished as it lies.
func FreshAsItIs(p *catalog.Piece) bool { return p.Fresh.Or(freshByBirth(p)) }

// freshByBirth says whether a piece has the finish its maker gave it and nobody has used
// it: a reproduction, and unused old stock on which nothing was found.
func freshByBirth(p *catalog.Piece) bool {
	return p.Kind == catalog.Reproduction || p.Kind == catalog.OldStock && len(p.Findings) == 0
}

// look takes grade and tone as given by eye, else as derived.
func (d *draft) look(p *catalog.Piece, r reading) {
	d.grade = p.Grade.Or(r.grade)
	d.tone = p.Tone.Or(r.tone)
	if !p.Grade.Set {
		d.assumptions = append(d.assumptions, r.rests...)
	}
	if !p.Tone.Set {
		d.assumptions = append(d.assumptions, r.tones...)
	}
}
