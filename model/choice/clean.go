package choice

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
)

// clean adds the choice of polishing a piece in the shop, where there is a
// finding that polishing takes away.
func (g *deriver) clean(piece int) {
	d, why := cleanDraft(g.st, g.slot, piece)
	fault := ""
	if why == "" {
		if fault = unsound(g.st, &g.st.Pieces[piece], unpolished(g.st, &g.st.Pieces[piece])); fault != "" {
			why = fault + unlessHarmless
		} else {
			why = d.finish(g.st, g.slot, piece)
		}
	}
	if why != "" {
		g.out(Exclusion{Piece: piece, Work: catalog.WorkClean, Plater: catalog.None, Why: why, Fault: fault})
		return
	}
	g.add(piece, d)
}

// cleanDraft: hours = once + each x faults polished + per area x the whole
// surface, at the shop's rate; breakage by metal; grade = what the findings that
// polishing can't take away leave, capped by the work, never below as-is.
func cleanDraft(st *catalog.State, slot, piece int) (draft, string) {
	p := &st.Pieces[piece]
	w := workNamed(st, catalog.CleanWork)
	count, names := polished(st, p)
	switch {
	case w == catalog.None:
		return draft{}, fmt.Sprintf("the trade tables have no work %q", catalog.CleanWork)
	case count == 0:
		return draft{}, "it has no finding that polishing takes away"
	case p.Metal == catalog.None:
		return draft{}, "its metal is unknown"
	}
	d := unplated(st, p, catalog.WorkClean)
	d.cleanHours(st, slot, w, count)
	work := &st.Tables.Works[w]
	if b := at(work.Breakage, p.Metal); b.Or(0) > 0 {
		d.breakage = b.V
		d.assumptions = append(d.assumptions,
			assumed(b, breakageOf+"%s in %s", work.Name, st.Tables.Metals[p.Metal].Name)...)
	}
	d.assumptions = append(d.assumptions, names...)
	d.cleanLook(st, p, work)
	left := unpolished(st, p)
	d.growing, d.weak = growing(st, p, left), weak(st, p, left, false)
	return d, ""
}

// cleanLook is grade and tone after cleaning.
func (d *draft) cleanLook(st *catalog.State, p *catalog.Piece, work *catalog.Work) {
	after := read(st, p, unpolished(st, p))
	rests := append(after.rests, after.tones...)
	if work.Cap.Set && work.Cap.V < after.grade {
		after.grade = work.Cap.V
		rests = append(rests, assumed(work.Cap, "highest grade after %s", work.Name)...)
	}
	before := p.Grade.Or(0)
	if !p.Grade.Set {
		before = read(st, p, stays(st, p)).grade
	}
	d.grade = max(before, after.grade)
	d.tone = p.Tone.Or(after.tone)
	d.assumptions = append(d.assumptions, rests...)
}

// cleanHours adds the shop's time. Without the slot's area the time per area
// can't be counted, and the choice says so.
func (d *draft) cleanHours(st *catalog.State, slot, w, count int) {
	work := &st.Tables.Works[w]
	hours := work.Hours.Or(0) + catalog.Micro(count)*work.Each.Or(0)
	area := st.Slots[slot].Area
	if perArea := work.PerArea.Or(0); perArea > 0 {
		if area.Set {
			hours += catalog.Of(area.V, perArea)
		} else {
			d.warnings = append(d.warnings, fmt.Sprintf("the slot has no area, so cleaning counts no time for its "+
				"surface: give %s an area", st.Slots[slot].Name))
		}
	}
	cost := catalog.Of(hours, st.Shop.Hourly.Or(0))
	d.other = cost
	d.parts = append(d.parts, plan.Part{Work: w, Doer: plan.ByShop, Maker: catalog.None, Hours: hours, Cost: cost})
	if cost > 0 {
		d.assumptions = append(d.assumptions, hourAssumptions(work)...)
		d.assumptions = append(d.assumptions, shopHourly(st)...)
	}
}

// polished counts the faults that polishing takes away.
func polished(st *catalog.State, p *catalog.Piece) (count int, rests []plan.Assumption) {
	for i := range p.Findings {
		f := &p.Findings[i]
		if polishes(st, f) {
			count += f.Count
			d := &st.Tables.Defects[f.Defect]
			rests = append(rests, assumed(d.By[f.Severity].Polishes, "that polishing takes away %s %s", f.Severity,
				d.Name)...)
		}
	}
	return count, rests
}

func workNamed(st *catalog.State, name string) int {
	for i := range st.Tables.Works {
		if st.Tables.Works[i].Name == name {
			return i
		}
	}
	return catalog.None
}

// hourAssumptions names the hours of a work where one of its figures is a starting
// value.
func hourAssumptions(w *catalog.Work) []plan.Assumption {
	for _, v := range []catalog.Val[catalog.Micro]{w.Hours, w.Each, w.PerArea} {
		if v.V > 0 {
			if r := assumed(v, "hours of %s", w.Name); r != nil {
				return r
			}
		}
	}
	return nil
}
