package oracle

import "brightset/catalog"

// plated is a piece plated by every plater: on each of his quotes if he gave one, else at
// each of his levels.
func (r *Reader) plated(slot, p int) []done {
	var all []done
	piece := &r.st.Pieces[p]
	for q := range r.st.Platers {
		plater, quoted := &r.st.Platers[q], false
		for i := range piece.Quotes {
			if piece.Quotes[i].Plater != q || !r.stands(piece, &piece.Quotes[i]) {
				continue
			}
			quoted = true
			if d, ok := r.quoted(slot, p, i); ok {
				all = append(all, d)
			}
		}
		if quoted || r.refuses(piece, plater) {
			continue
		}
		for l := range plater.Levels {
			if d, _, ok := r.estimate(slot, p, q, &plater.Levels[l]); ok {
				all = append(all, d)
			}
		}
	}
	return all
}

// refuses says whether a plater can't or won't plate a piece without having quoted.
func (r *Reader) refuses(piece *catalog.Piece, plater *catalog.Plater) bool {
	for i := range piece.Findings {
		f := &piece.Findings[i]
		if within(plater.Refuses, f.Defect) || or(r.at(f).Beyond, false) {
			return true
		}
	}
	return false
}

// estimate is what the tables and a plater's terms make of one piece at one of his levels,
// and how many of its days are the makers': the slowest before it goes, and the slowest when
// it is back.
func (r *Reader) estimate(slot, p, q int, level *catalog.Level) (d done, makers int, ok bool) {
	piece, plater, area := &r.st.Pieces[p], &r.st.Platers[q], r.st.Slots[slot].Area
	price := byThePiece(level, piece, r.st.Slots[slot].Part)
	if piece.Metal < 0 || !area.Set && price == nothing {
		return d, 0, false
	}
	rate, grade, base := forMetal(level.Rate, piece.Metal), forMetal(level.Grade, piece.Metal),
		r.st.Tables.Metals[piece.Metal].Base
	if !rate.Set && price == nothing || !grade.Set || !base.Set {
		return d, 0, false
	}
	d = done{work: catalog.WorkReplate, plater: q, level: level.Name, quote: nothing, strip: plater.StripFee,
		plate: price, grade: grade.V, tone: or(level.Tone, 0), fresh: true}
	if price == nothing {
		d.plate = max(plater.Least, part(area.V, rate.V))
	}
	his, others, finishers := million-base.V, catalog.Micro(million), 0
	for w := range r.st.Tables.Works {
		count, share := r.needs(piece, w)
		work := &r.st.Tables.Works[w]
		if r.asked(piece, w) {
			d.work, d.grade = catalog.WorkRepair, min(d.grade, or(work.Cap, flawless))
		}
		if count == 0 {
			continue
		}
		if !area.Set && or(work.PerArea, 0) > 0 {
			return d, 0, false // nobody can tell how long it takes
		}
		who, hourly, days := r.whoDoes(plater, w)
		cost := part(hours(work, count, part(share, area.V)), hourly)
		holds := million - or(forMetal(work.Breakage, piece.Metal), 0)
		switch who {
		case nobody:
			return d, 0, false
		case thePlater:
			d.plate += cost
		default:
			if r.last(w) {
				d.other += cost
				finishers = max(finishers, days)
			} else {
				d.before += cost
				makers = max(makers, days)
			}
			if who == aMaker {
				d.makers += cost
			}
		}
		if who == thePlater {
			his = part(his, holds)
		} else {
			others = part(others, holds)
			if r.last(w) {
				d.lastBreaks = joined(d.lastBreaks, million-holds)
			}
		}
	}
	d.breaks = million - part(million-min(million, part(plater.Factor, million-his)), others)
	d.refused = r.sentBack(piece)
	makers += finishers
	d.days = plater.Days + makers
	return d, makers, true
}

// asked says whether the faults of a piece call for a work, done or not.
func (r *Reader) asked(piece *catalog.Piece, work int) bool {
	for i := range piece.Findings {
		if within(r.mend(piece, &piece.Findings[i]), work) {
			return true
		}
	}
	return false
}

// needs says how many faults of a piece a work has yet to mend, and on what share of the surface.
func (r *Reader) needs(piece *catalog.Piece, work int) (count int, share catalog.Micro) {
	for i := range piece.Findings {
		if f := &piece.Findings[i]; within(r.mend(piece, f), work) && !within(f.Done, work) {
			count, share = count+f.Count, share+f.Extent
		}
	}
	return count, min(million, share)
}

const (
	nobody = iota
	thePlater
	theShop
	aMaker
)

// whoDoes says who does a work, at what rate, and how many days a maker takes: the plater
// if he takes it, else the shop, else the cheapest maker, the first of equals.
func (r *Reader) whoDoes(plater *catalog.Plater, work int) (who int, hourly catalog.Cents, days int) {
	shop := or(r.st.Shop.Hourly, 0)
	if within(plater.Works, work) {
		return thePlater, or(plater.Hourly, shop), 0
	}
	if within(r.st.Shop.Works, work) {
		return theShop, shop, 0
	}
	for _, m := range r.st.Makers {
		if within(m.Works, work) && (who == nobody || m.Hourly < hourly) {
			who, hourly, days = aMaker, m.Hourly, m.Days
		}
	}
	return who, hourly, days
}

// sentBack is the chance that stripping shows what makes him send the piece back.
func (r *Reader) sentBack(piece *catalog.Piece) catalog.Micro {
	kept := catalog.Micro(million)
	for i := range piece.Findings {
		f := &piece.Findings[i]
		refused := or(forMetal(r.st.Tables.Defects[f.Defect].Refused, piece.Metal), 0)
		kept = part(kept, million-part(or(r.at(f).Reveal, million), refused))
	}
	return million - kept
}

// quoted is a piece plated on a quote. What it leaves out comes from the estimate at its
// level, which is the plater's only one where the quote names none; else from the plater;
// else breakage and refused are nothing and the work is replate. Without a grade from
// either there is no choice. The quote is the plater's whole part, and where he quotes a
// plain replate nobody mends anything.
func (r *Reader) quoted(slot, p, i int) (done, bool) {
	quote := &r.st.Pieces[p].Quotes[i]
	plater := &r.st.Platers[quote.Plater]
	d := done{work: catalog.WorkReplate, plater: quote.Plater, level: quote.Level, plate: quote.Cost}
	days, estimated := 0, false
	for l := range plater.Levels {
		level := &plater.Levels[l]
		if level.Name != quote.Level && (quote.Level != "" || len(plater.Levels) > 1) {
			continue
		}
		d.level, d.tone = level.Name, or(level.Tone, 0)
		var e done
		if e, days, estimated = r.estimate(slot, p, quote.Plater, level); estimated {
			e.plate = quote.Cost
			d = e
		}
	}
	if !estimated && !quote.Grade.Set {
		return d, false
	}
	if quote.Work != "" {
		d.work = quote.Work
	}
	if d.work == catalog.WorkReplate {
		d.before, d.makers, d.other, d.lastBreaks, days = 0, 0, 0, 0, 0
	}
	if d.work == catalog.WorkReplate { // which leaves a crack as it is, below the plating
		for k := range r.st.Pieces[p].Findings {
			f := &r.st.Pieces[p].Findings[k]
			d.growing = d.growing || r.bad(&r.st.Pieces[p], f) && r.st.Tables.Defects[f.Defect].Progressive
		}
	}
	d.quote, d.strip = i, plater.StripFee
	if quote.Breakage.Set { // which is about what he does himself
		d.breaks = joined(quote.Breakage.V, d.lastBreaks)
	}
	d.refused = or(quote.Refused, d.refused)
	d.grade, d.tone, d.fresh = or(quote.Grade, d.grade), or(quote.Tone, d.tone), or(quote.Fresh, true)
	d.days = or(quote.Days, plater.Days) + days
	return d, true
}

// byThePiece is what a level costs for a piece whatever its area: what he asks for that
// piece, else for the part; nothing where he named neither. A piece may be called by its id
// with its file or without; without it is the job's piece, if both files have one.
func byThePiece(level *catalog.Level, piece *catalog.Piece, partName string) catalog.Cents {
	cost := catalog.Cents(nothing)
	named := func(is func(of string) bool) {
		for i := len(level.Prices) - 1; i >= 0; i-- { // the first of a name counts
			if v := forMetal(level.Prices[i].Cost, piece.Metal); is(level.Prices[i].Of) && v.Set {
				cost = v.V
			}
		}
	}
	file := "job:"
	if piece.InShop {
		file = "shop:"
	}
	named(func(of string) bool { return of == partName })
	if !piece.InShop || !piece.InBoth {
		named(func(of string) bool { return of == piece.ID })
	}
	named(func(of string) bool { return of == file+piece.ID })
	return cost
}
