package choice

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// later is what the findings bring with them that came to light after a price was named:
// what stripping shows counts at once. It is for one piece at the plater who has it.
type later struct {
	plate     catalog.Cents // hours of his for works beyond those he knew of
	breakage  catalog.Micro // of works he knew nothing of
	refused   catalog.Micro // that he sends the piece back for what came to light
	cap       catalog.Centi // highest grade after those works
	why       string        // why he can't go on at all; "" where he can
	something bool
}

// laterFindings reckons with all findings that the terms on which a piece went to a
// plater don't know. Of a work he knew of, only the further hours count:
//
//	plate    = sum over works of hours(all findings) - hours(those known), at his rate
//	breakage = min(1, factor (1 - product of (1 - breakage of each new work)))
//	refused  = 1 - product over new findings of (1 - reveal x refused)
func laterFindings(st *catalog.State, slot, piece int) later {
	p := &st.Pieces[piece]
	q := p.Sent.Plater
	x := later{cap: catalog.MaxGrade}
	before := *p
	before.Findings = nil
	var new []catalog.Finding
	for i := range p.Findings {
		if f := &p.Findings[i]; p.Sent.Knows(f) {
			before.Findings = append(before.Findings, *f)
		} else {
			new = append(new, *f)
		}
	}
	if len(new) == 0 {
		return x
	}
	x.something = true
	only := *p
	only.Findings = new
	if x.why = barredBy(st, new, q); x.why != "" {
		return x
	}
	whole := catalog.One
	for _, w := range worksFor(st, &only) {
		work := &st.Tables.Works[w]
		x.cap = min(x.cap, work.Cap.Or(catalog.MaxGrade))
		if !ToDo(st, &only, w) {
			continue
		}
		if !slices.Contains(st.Platers[q].Works, w) {
			if work.AfterPlating() {
				continue // others do, when it is back
			}
			x.why = fmt.Sprintf("%s does no %s", plan.Briefly(st, q), work.Name)
			return x
		}
		hourly := st.Platers[q].Hourly.Or(st.Shop.Hourly.Or(0))
		area := st.Slots[slot].Area.Or(0)
		x.plate += catalog.Of(workHours(st, p, w, area), hourly)
		if ToDo(st, &before, w) {
			x.plate -= catalog.Of(workHours(st, &before, w, area), hourly)
			continue
		}
		whole = catalog.Both(whole, catalog.One-at(work.Breakage, p.Metal).Or(0))
	}
	x.breakage = min(catalog.One, catalog.Of(st.Platers[q].Factor, catalog.One-whole))
	x.refused, _ = sentBack(st, &only)
	return x
}

// Standing gives the terms on which a piece is at a plater's as they stand for a slot:
// those it went for, with what has come to light since. why says why he can't go on on any.
// Money is for one piece; once he was told to go ahead, only what comes on top of
// what he was told of is yet to be paid: see atPlater.
func Standing(st *catalog.State, slot, piece int) (terms catalog.Quote, why string) {
	p := &st.Pieces[piece]
	terms = p.Sent.Quote
	x := laterFindings(st, slot, piece)
	if !x.something || x.why != "" && p.Stage >= catalog.StagePlated {
		return terms, ""
	}
	if x.why != "" {
		return terms, x.why
	}
	terms.Cost += x.plate
	terms.Breakage.V, terms.Breakage.Set = catalog.Either(terms.Breakage.Or(0), x.breakage), true
	terms.Refused.V, terms.Refused.Set = catalog.Either(terms.Refused.Or(0), x.refused), true
	terms.Grade.V = min(terms.Grade.V, x.cap)
	return terms, ""
}

// overtaken says why a price named for a piece stands no more: stripping has shown, since
// it was named, what is beyond repair, what the plater refuses, or what asks for work. ""
// where it stands. What is beyond repair and was known is his to take or leave.
func overtaken(st *catalog.State, p *catalog.Piece, t *catalog.Quote) string {
	for i := range p.Findings {
		f := &p.Findings[i]
		if t.Knows(f) {
			continue
		}
		if barredBy(st, p.Findings[i:i+1], t.Plater) != "" || len(worksOf(st, p, f)) > 0 {
			return fmt.Sprintf("quote %q was named before %s %s came to light: ask again", t.ID, f.Severity,
				st.Tables.Defects[f.Defect].Name)
		}
	}
	return ""
}
