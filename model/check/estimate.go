package check

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// estimated is what plating one piece by a plater at a level comes to on
// the trade tables; nil and why where there is no estimate. Only a strict one
// minds faults beyond repair and those the plater refuses.
func estimated(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece, q int, name string,
	strict bool) (*doneTo, string) {
	plater := &st.Platers[q]
	level := levelNamed(plater, name)
	if level == nil {
		return nil, fmt.Sprintf("plater %q has no level %q", plater.ID, name)
	}
	price := asked(level, piece, slot)
	if piece.Metal == catalog.None || !slot.Area.Set && !price.Set {
		return nil, fmt.Sprintf("no estimate for piece %q: its metal or the area is unknown", piece.ID)
	}
	rate, grade, base := forMetal(level.Rate, piece.Metal), forMetal(level.Grade, piece.Metal),
		st.Tables.Metals[piece.Metal].Base
	if !rate.Set && !price.Set || !grade.Set || !base.Set {
		return nil, fmt.Sprintf("no rate, grade or breakage for the metal of piece %q at plater %q", piece.ID,
			plater.ID)
	}
	if strict {
		if why := forbidden(st, piece, plater); why != "" {
			return nil, why
		}
	}
	one := &doneTo{
		work: catalog.WorkReplate, level: name, grade: grade.V, tone: level.Tone.Or(0), fresh: true,
		plate:   max(plater.Least, catalog.Of(slot.Area.Or(0), rate.V)),
		refused: sentBack(st, piece),
	}
	if price.Set {
		one.plate = price.V
	}
	whole, others := catalog.One-base.V, catalog.One
	for w := range st.Tables.Works {
		count, surface, needed := needOf(st, piece, w)
		if !needed {
			continue
		}
		work := &st.Tables.Works[w]
		one.work = catalog.WorkRepair
		one.grade = min(one.grade, work.Cap.Or(soundWhole))
		if count == 0 {
			continue // it is done
		}
		if !slot.Area.Set && work.PerArea.Or(0) > 0 {
			return nil, fmt.Sprintf("the work %q goes by the area, which is unknown", work.Name)
		}
		if !whoDoes(st, one, plater, w, hoursOf(work, count, catalog.Of(surface, slot.Area.V))) {
			return nil, fmt.Sprintf("nobody does the work %q", work.Name)
		}
		holds := catalog.One - forMetal(work.Breakage, piece.Metal).Or(0)
		if slices.Contains(plater.Works, w) {
			whole = catalog.Both(whole, holds)
		} else {
			others = catalog.Both(others, holds)
			if lastWork(st, w) {
				one.lastBreaks = catalog.Either(one.lastBreaks, catalog.One-holds)
			}
		}
	}
	his := min(catalog.One, catalog.Of(plater.Factor, catalog.One-whole))
	one.breaks = catalog.One - catalog.Both(catalog.One-his, others)
	one.other = one.after
	one.days = plater.Days + one.makersDays + one.makersAfter
	return one, ""
}

// forbidden says why the plater can't or won't plate the piece, "" if he
// can.
func forbidden(st *catalog.State, piece *catalog.Piece, plater *catalog.Plater) string {
	for _, f := range piece.Findings {
		defect := &st.Tables.Defects[f.Defect]
		if slices.Contains(plater.Refuses, f.Defect) {
			return fmt.Sprintf("plater %q refuses %q", plater.ID, defect.Name)
		}
		if defect.By[f.Severity].Beyond.Or(false) {
			return fmt.Sprintf("%s %q is beyond repair", f.Severity, defect.Name)
		}
	}
	return ""
}

// sentBack is the chance that stripping shows what makes the plater send
// the piece back.
func sentBack(st *catalog.State, piece *catalog.Piece) catalog.Micro {
	kept := catalog.One
	for _, f := range piece.Findings {
		defect := &st.Tables.Defects[f.Defect]
		share := defect.By[f.Severity].Reveal.Or(catalog.One)
		kept = catalog.Both(kept, catalog.One-catalog.Of(share, forMetal(defect.Refused, piece.Metal).Or(0)))
	}
	return catalog.One - kept
}

// needOf says whether the findings of a piece need a trade work, how many
// faults it has yet to mend and on what share of the surface.
func needOf(st *catalog.State, piece *catalog.Piece, work int) (count int, share catalog.Micro, needed bool) {
	for _, f := range piece.Findings {
		if slices.Contains(worksOn(st, piece, &f), work) {
			needed = true
			if !slices.Contains(f.Done, work) {
				count, share = count+f.Count, share+f.Extent
			}
		}
	}
	return count, min(catalog.One, share), needed
}

// whoDoes gives a work to whoever does it and adds what it costs: the plater,
// else the shop, else the cheapest maker. It is false where nobody does it.
func whoDoes(st *catalog.State, one *doneTo, plater *catalog.Plater, work int, hours catalog.Micro) bool {
	hourly := st.Shop.Hourly.Or(0)
	if slices.Contains(plater.Works, work) {
		one.plate += catalog.Of(hours, plater.Hourly.Or(hourly))
		return true
	}
	if slices.Contains(st.Shop.Works, work) {
		one.others(st, work, catalog.Of(hours, hourly))
		return true
	}
	best := catalog.None
	for m := range st.Makers {
		if slices.Contains(st.Makers[m].Works, work) && (best == catalog.None ||
			st.Makers[m].Hourly < st.Makers[best].Hourly) {
			best = m
		}
	}
	if best == catalog.None {
		return false
	}
	cost := catalog.Of(hours, st.Makers[best].Hourly)
	one.others(st, work, cost)
	one.makers += cost
	if lastWork(st, work) {
		one.makersAfter = max(one.makersAfter, st.Makers[best].Days)
	} else {
		one.makersDays = max(one.makersDays, st.Makers[best].Days)
	}
	return true
}

// others adds the cost of a work of the shop's or a maker's where it belongs: before the piece
// goes to the plater, or when it is back.
func (one *doneTo) others(st *catalog.State, work int, cost catalog.Cents) {
	if lastWork(st, work) {
		one.after += cost
	} else {
		one.before += cost
	}
}

func levelNamed(plater *catalog.Plater, name string) *catalog.Level {
	for i := range plater.Levels {
		if plater.Levels[i].Name == name {
			return &plater.Levels[i]
		}
	}
	return nil
}

// asked is what the plater asks for a piece whatever its area: for the piece by its
// name, else for the part.
func asked(level *catalog.Level, piece *catalog.Piece, slot *catalog.Slot) (price catalog.Val[catalog.Cents]) {
	best := 0 // of its full name 3, of its id 2, of the part 1
	for _, p := range level.Prices {
		cost, rank := forMetal(p.Cost, piece.Metal), 0
		switch {
		case p.Of == piece.Key():
			rank = 3
		case p.Of == piece.ID && !(piece.InShop && piece.InBoth): // which is the job's then
			rank = 2
		case p.Of == slot.Part:
			rank = 1
		}
		if cost.Set && rank > best {
			best, price = rank, cost
		}
	}
	return price
}
