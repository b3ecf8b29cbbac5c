package choice

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// levels adds the estimated choices of plating a piece at plater q, one for
// each of his levels.
func (g *deriver) levels(piece, q int) {
	plater := &g.st.Platers[q]
	work := workWord(g.st, piece)
	if why := barred(g.st, piece, q); why != "" {
		g.out(Exclusion{Piece: piece, Work: work, Plater: q, Why: why})
		return
	}
	for l := range plater.Levels {
		e, why := estimated(g.st, g.slot, piece, q, l)
		if why != "" {
			g.out(Exclusion{Piece: piece, Work: work, Plater: q, Level: plater.Levels[l].Name, Why: why})
			continue
		}
		g.add(piece, e.draft(g.st, piece, q))
	}
}

// workWord is repair-replate where something has to be mended first.
func workWord(st *catalog.State, piece int) string {
	if len(worksFor(st, &st.Pieces[piece])) == 0 {
		return catalog.WorkReplate
	}
	return catalog.WorkRepair
}

// barred says why plater q can't plate the piece at any price: a fault beyond
// repair, or a defect he refuses.
func barred(st *catalog.State, piece, q int) string {
	return barredBy(st, st.Pieces[piece].Findings, q)
}

// barredBy says the same of some findings.
func barredBy(st *catalog.State, findings []catalog.Finding, q int) string {
	for i := range findings {
		f := &findings[i]
		d := &st.Tables.Defects[f.Defect]
		if d.By[f.Severity].Beyond.Or(false) {
			return fmt.Sprintf("%s %s is beyond repair", f.Severity, d.Name)
		}
		if slices.Contains(st.Platers[q].Refuses, f.Defect) {
			return fmt.Sprintf("%s refuses %s", plan.Briefly(st, q), d.Name)
		}
	}
	return ""
}

// estimate is what the trade tables and a plater's terms give for one piece
// plated at one of his levels. Rests are kept apart by what they bear on, so
// that a quote takes over only those of the figures it takes over.
type estimate struct {
	level             int
	works             []int
	plate             catalog.Cents
	before, after     catalog.Cents // works of others, before it goes and when it is back
	makers            catalog.Cents // of before and after
	parts             []plan.Part
	breakage, refused catalog.Micro
	his, last         catalog.Micro // of the breakage, the plater's own, and that of others when it is back
	grade             catalog.Centi
	makerDays         int // the slowest maker's before it goes, and the slowest's when it is back
	rests             struct{ plate, others, breakage, refused, grade []plan.Assumption }
}

// estimated works out the estimate, whether or not the plater would take the
// piece, or says why it can't be had.
func estimated(st *catalog.State, slot, piece, q, level int) (estimate, string) {
	p := &st.Pieces[piece]
	l := &st.Platers[q].Levels[level]
	area, price := st.Slots[slot].Area, l.PriceOf(p, &st.Slots[slot])
	switch {
	case p.Metal == catalog.None:
		return estimate{}, "its metal is unknown: only a quote can tell"
	case !area.Set && !price.Set:
		return estimate{}, fmt.Sprintf("%s has no area: give it one, or get a quote", st.Slots[slot].Name)
	}
	metal := &st.Tables.Metals[p.Metal]
	switch {
	case !metal.Base.Set:
		return estimate{}, fmt.Sprintf("no breakage is known for %s", metal.Name)
	case !price.Set && !at(l.Rate, p.Metal).Set:
		return estimate{}, fmt.Sprintf("%s has no rate for %s in %s finish", plan.Briefly(st, q), metal.Name, l.Name)
	case !at(l.Grade, p.Metal).Set:
		return estimate{}, fmt.Sprintf("%s gives no grade for %s in %s finish", plan.Briefly(st, q), metal.Name, l.Name)
	}
	e := estimate{level: level, works: worksFor(st, p)}
	if why := e.money(st, p, q, &st.Slots[slot]); why != "" {
		return estimate{}, why
	}
	e.risk(st, p, q)
	e.finish(st, p, l)
	return e, ""
}

// money: the plater's part is what he asks by the piece, else max(least per piece, area x
// rate), and the works he does, the rest is the shop's and the makers': before it goes, or
// when it is back. Hours x rate is rounded once per work.
func (e *estimate) money(st *catalog.State, p *catalog.Piece, q int, slot *catalog.Slot) string {
	plater := &st.Platers[q]
	level := &plater.Levels[e.level]
	area, rate, price := slot.Area.Or(0), at(level.Rate, p.Metal), level.PriceOf(p, slot)
	days := map[bool]int{} // after plating or before
	plating := max(plater.Least, catalog.Of(area, rate.V))
	e.rests.plate = assumed(rate, "the rate of %s", plan.Briefly(st, q))
	if price.Set {
		plating, e.rests.plate = price.V, nil
	}
	e.plate = plating
	for _, w := range e.works {
		if !ToDo(st, p, w) {
			continue
		}
		by, maker, hourly, ok := doer(st, q, w)
		work := &st.Tables.Works[w]
		if !ok {
			return fmt.Sprintf("nobody does %s: not %s, not the shop, no maker", work.Name, plan.Briefly(st, q))
		}
		if work.PerArea.Or(0) > 0 && !slot.Area.Set {
			return fmt.Sprintf("%s has no area, and %s goes by it: give it one, or get a quote",
				slot.Name, work.Name)
		}
		hours := workHours(st, p, w, area)
		cost := catalog.Of(hours, hourly)
		e.parts = append(e.parts, plan.Part{Work: w, Doer: by, Maker: maker, Hours: hours, Cost: cost})
		var rests []plan.Assumption
		if cost > 0 {
			rests = append(rests, hourAssumptions(work)...)
			if by == plan.ByShop || by == plan.ByPlater && !plater.Hourly.Set {
				rests = append(rests, shopHourly(st)...)
			}
		}
		if by == plan.ByPlater {
			e.plate += cost
			e.rests.plate = append(e.rests.plate, rests...)
			continue
		}
		after := work.AfterPlating()
		if after {
			e.after += cost
		} else {
			e.before += cost
		}
		e.rests.others = append(e.rests.others, rests...)
		if by == plan.ByMaker {
			e.makers += cost
			days[after] = max(days[after], st.Makers[maker].Days)
		}
	}
	e.makerDays = days[false] + days[true]
	e.parts = withPlating(st, e.parts, plating)
	return ""
}

// risk: his = min(1, factor x (1 - (1-base) x product of (1 - breakage of each work of
// his))); breakage = 1 - (1 - his) x product of (1 - breakage of each work that others do):
// the factor is the plater's, for what he does; refused = 1 - product over findings of
// (1 - share x refused).
func (e *estimate) risk(st *catalog.State, p *catalog.Piece, q int) {
	metal := &st.Tables.Metals[p.Metal]
	whole, others := catalog.One-metal.Base.V, catalog.One
	if metal.Base.V > 0 {
		e.rests.breakage = assumed(metal.Base, breakageOf+"plating %s", metal.Name)
	}
	for _, w := range e.works {
		if !ToDo(st, p, w) {
			continue
		}
		work := &st.Tables.Works[w]
		b := at(work.Breakage, p.Metal)
		if by, _, _, _ := doer(st, q, w); by == plan.ByPlater {
			whole = catalog.Both(whole, catalog.One-b.Or(0))
		} else {
			others = catalog.Both(others, catalog.One-b.Or(0))
			if work.AfterPlating() {
				e.last = catalog.Either(e.last, b.Or(0))
			}
		}
		if b.V > 0 {
			e.rests.breakage = append(e.rests.breakage, assumed(b, breakageOf+"%s in %s", work.Name, metal.Name)...)
		}
	}
	e.his = min(catalog.One, catalog.Of(st.Platers[q].Factor, catalog.One-whole))
	e.breakage = catalog.One - catalog.Both(catalog.One-e.his, others)
	e.refused, e.rests.refused = sentBack(st, p)
}

// sentBack is the chance that stripping shows what makes a plater send a piece back, and
// what that rests on.
func sentBack(st *catalog.State, p *catalog.Piece) (refused catalog.Micro, rests []plan.Assumption) {
	taken := catalog.One
	for i := range p.Findings {
		f := &p.Findings[i]
		d := &st.Tables.Defects[f.Defect]
		share := d.By[f.Severity].Reveal
		r := at(d.Refused, p.Metal)
		chance := catalog.Of(share.Or(catalog.One), r.Or(0))
		taken = catalog.Both(taken, catalog.One-chance)
		if chance > 0 {
			rests = append(rests, assumed(r, "refusals for %s in %s", d.Name, st.Tables.Metals[p.Metal].Name)...)
		}
	}
	return catalog.One - taken, rests
}

// finish: grade = min(the level's for the metal, the caps of the works).
func (e *estimate) finish(st *catalog.State, p *catalog.Piece, l *catalog.Level) {
	grade := at(l.Grade, p.Metal)
	e.grade = grade.V
	e.rests.grade = assumed(grade, "grade of %s finish", l.Name)
	for _, w := range e.works {
		work := &st.Tables.Works[w]
		if work.Cap.Set && work.Cap.V < e.grade {
			e.grade = work.Cap.V
			e.rests.grade = assumed(work.Cap, "highest grade after %s", work.Name)
		}
	}
}

// draft is the estimate as a choice of its own.
func (e *estimate) draft(st *catalog.State, piece, q int) draft {
	plater := &st.Platers[q]
	d := draft{
		work: workWord(st, piece), plater: q, level: plater.Levels[e.level].Name, quote: catalog.None,
		plate: e.plate, before: e.before, other: e.after, makers: e.makers, parts: e.parts,
		breakage: e.breakage, refused: e.refused,
		grade: e.grade, tone: plater.Levels[e.level].Tone.Or(0), fresh: true,
		weak: weak(st, &st.Pieces[piece], every, true),
		days: Arrival(st, &st.Pieces[piece]) + plater.Days + e.makerDays,
	}
	for _, r := range [][]plan.Assumption{e.rests.plate, e.rests.others, e.rests.breakage, e.rests.refused,
		e.rests.grade} {
		d.assumptions = append(d.assumptions, r...)
	}
	return d
}
