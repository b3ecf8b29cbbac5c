package choice

import (
	"cmp"
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// quotes adds one choice for every quote of plater q for a piece. Quotes replace
// all estimates with him; what a quote leaves open comes from the estimate at
// its level.
func (g *deriver) quotes(piece, q int) {
	p := &g.st.Pieces[piece]
	for i := range p.Quotes {
		if p.Quotes[i].Plater != q {
			continue
		}
		if why := overtaken(g.st, p, &p.Quotes[i]); why != "" {
			g.out(Exclusion{Piece: piece, Work: cmp.Or(p.Quotes[i].Work, workWord(g.st, piece)), Plater: q,
				Level: p.Quotes[i].Level, Why: why})
			continue
		}
		d, why := quoted(g.st, g.slot, piece, i)
		if why != "" {
			g.out(Exclusion{Piece: piece, Work: d.work, Plater: q, Level: d.level, Why: why})
			continue
		}
		g.add(piece, d)
	}
}

// quoted makes a quote into a choice.
func quoted(st *catalog.State, slot, piece, quote int) (draft, string) {
	p := &st.Pieces[piece]
	t := &p.Quotes[quote]
	plater := &st.Platers[t.Plater]
	d := draft{
		work: t.Work, plater: t.Plater, level: t.Level, quote: quote, plate: t.Cost, fresh: t.Fresh.Or(true),
		parts: []plan.Part{{Work: catalog.None, Doer: plan.ByPlater, Maker: catalog.None, Cost: t.Cost}},
	}
	level := quoteLevel(st, t)
	if level != catalog.None {
		d.level = plater.Levels[level].Name
	}
	e, has := quoteEstimate(st, slot, piece, t, level)
	d.quoteWork(st, piece, e, has)
	if !d.quoteLook(st, t, level, e, has) {
		return d, fmt.Sprintf("quote %q gives no grade and there is no estimate to take one from: give the quote a "+
			"grade", t.ID)
	}
	d.breakage, d.refused = catalog.Either(t.Breakage.Or(0), d.breakage), t.Refused.Or(0)
	if has && !t.Breakage.Set {
		d.breakage = e.breakage
		d.assumptions = append(d.assumptions, e.rests.breakage...)
	}
	if has && !t.Refused.Set {
		d.refused = e.refused
		d.assumptions = append(d.assumptions, e.rests.refused...)
	}
	d.weak = weak(st, p, every, d.work == catalog.WorkRepair)
	d.growing = d.work == catalog.WorkReplate && growing(st, p, func(f *catalog.Finding) bool {
		return LeftByReplating(st, p, f) // a crack that is plated over
	})
	d.days += Arrival(st, p) + t.Days.Or(plater.Days)
	if why := barred(st, piece, t.Plater); why != "" {
		d.warnings = append(d.warnings, fmt.Sprintf("%s quoted all the same (%q): %s", plater.Name, t.ID, why))
	}
	if why := unsound(st, p, every); why != "" && d.work == catalog.WorkReplate {
		d.warnings = append(d.warnings, fmt.Sprintf("quote %q is for plating alone and mends nothing: %s%s", t.ID, why,
			unlessHarmless))
	}
	return d, ""
}

// quoteLevel is the level a quote is for: its own, or the only one the plater
// has; catalog.None where that settles none.
func quoteLevel(st *catalog.State, t *catalog.Quote) int {
	levels := st.Platers[t.Plater].Levels
	for l := range levels {
		if levels[l].Name == t.Level || t.Level == "" && len(levels) == 1 {
			return l
		}
	}
	return catalog.None
}

// quoteEstimate is the estimate that fills in for a quote.
func quoteEstimate(st *catalog.State, slot, piece int, t *catalog.Quote, level int) (estimate, bool) {
	if level == catalog.None {
		return estimate{}, false
	}
	e, why := estimated(st, slot, piece, t.Plater, level)
	return e, why == ""
}

// quoteWork settles which work it is and what others do for it. The quote's cost
// is the plater's whole part. Where he quotes replating for a piece that the
// findings would have mended first, nobody mends it.
func (d *draft) quoteWork(st *catalog.State, piece int, e estimate, has bool) {
	if d.work == "" {
		d.work = catalog.WorkReplate
		if has {
			d.work = workWord(st, piece)
		}
	}
	if !has || d.work == catalog.WorkReplate && len(e.works) > 0 {
		return
	}
	d.before, d.other, d.makers, d.breakage = e.before, e.after, e.makers, e.last
	d.days = e.makerDays
	d.assumptions = append(d.assumptions, e.rests.others...)
	for _, part := range e.parts {
		if part.Work == catalog.None {
			continue
		}
		if part.Doer == plan.ByPlater {
			part.Cost = 0 // within the quote
		}
		d.parts = append(d.parts, part)
	}
}

// quoteLook settles grade and tone; false where there is no grade to be had.
func (d *draft) quoteLook(st *catalog.State, t *catalog.Quote, level int, e estimate, has bool) bool {
	if !t.Grade.Set && !has {
		return false
	}
	d.grade = t.Grade.V
	if !t.Grade.Set {
		d.grade = e.grade
		d.assumptions = append(d.assumptions, e.rests.grade...)
	}
	switch {
	case t.Tone.Set:
		d.tone = t.Tone.V
	case level != catalog.None:
		d.tone = st.Platers[t.Plater].Levels[level].Tone.Or(0)
	}
	return true
}
