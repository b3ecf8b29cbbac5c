package oracle

import "brightset/catalog"

// Choice is a piece, a work, and for plated work a plater and a level. Money is for all
// pieces that the slot needs.
type Choice struct {
	Slot, Piece int
	Work        string
	Plater      int // None unless plated
	Level       string
	Quote       int  // None for an estimate
	Sent        bool // it is at the plater's already

	Get, Give, Plate, Before, Other, Strip, Back catalog.Cents

	Makers catalog.Cents // of Before and Other

	Breakage, Refused, Chance, Misfit, Fails catalog.Micro

	Keep, Keeps catalog.Cents // worth to the owner that it hangs, and that by its chance

	Grade, Tone            catalog.Centi
	Fresh, Redone, Growing bool
	Weak                   bool
	Days                   int

	Paid, Cash catalog.Cents
}

// done is what is done to one piece.
type done struct {
	work                 string
	plater               int
	level                string
	quote                int
	sent                 bool
	plate, before, other catalog.Cents
	strip, makers        catalog.Cents
	breaks, refused      catalog.Micro
	lastBreaks           catalog.Micro // of breaks, what others do when it is back
	grade, tone          catalog.Centi
	fresh, growing, weak bool
	redone               bool // unplated: done before
	days                 int
}

// Choices are all choices of a slot, before any rule of the target.
func (r *Reader) Choices(slot int) []*Choice {
	var out []*Choice
	for p := range r.st.Pieces {
		for _, d := range r.doneTo(slot, p) {
			out = append(out, r.times(slot, p, d))
		}
	}
	return out
}

// doneTo is all that can be done to one piece for a slot.
func (r *Reader) doneTo(slot, p int) []done {
	piece, fit := &r.st.Pieces[p], r.fit(slot, p)
	if fit == nil && !within(piece.Fits, slot) || piece.Quantity < r.st.Slots[slot].Quantity || r.outOfReach(slot, p) {
		return nil
	}
	var all []done
	switch {
	case atPlater(piece):
		all = r.underWay(slot, p)
	case piece.Stage == catalog.StageHung:
		all, fit = r.asIs(slot, p), nil // fitted already
	default:
		if !stripped(piece) {
			all = append(r.asIs(slot, p), r.clean(slot, p)...)
		}
		all = append(all, r.plated(slot, p)...)
	}
	for i := range all {
		d := &all[i]
		if d.plater >= 0 {
			d.weak = r.weaker(piece, piece.Findings, d.work == catalog.WorkRepair)
		}
		if piece.Weak { // that it was mended once stays with it
			d.weak = true
		}
		if fit != nil {
			d.other += part(fit.Hours, or(r.st.Shop.Hourly, 0))
			d.breaks = joined(d.breaks, fit.Breakage)
			d.grade = min(d.grade, fit.Cap)
		}
	}
	return all
}

func (r *Reader) fit(slot, p int) *catalog.Fit {
	for i := range r.st.Pieces[p].Fit {
		if f := &r.st.Pieces[p].Fit[i]; f.Slot == slot {
			return f
		}
	}
	return nil
}

// times makes the choice for the n pieces that the slot needs.
func (r *Reader) times(slot, p int, d done) *Choice {
	piece, count := &r.st.Pieces[p], r.st.Slots[slot].Quantity
	n := catalog.Cents(count)
	c := &Choice{Slot: slot, Piece: p, Work: d.work, Plater: d.plater, Level: d.level, Quote: d.quote, Sent: d.sent,
		Get: n * piece.Price, Give: n * piece.Value, Plate: n * d.plate, Before: n * d.before, Other: n * d.other,
		Strip: n * d.strip, Makers: n * d.makers,
		Breakage: ofMany(d.breaks, count), Refused: ofMany(d.refused, count), Chance: piece.Chance,
		Grade: d.grade, Tone: d.tone, Fresh: d.fresh, Redone: d.redone || d.plater >= 0, Growing: d.growing,
		Weak: d.weak, Days: d.days}
	if !d.sent { // what is at a plater's was on the bench
		c.Days += r.arrival(p)
	}
	c.Misfit, c.Back = r.misfit(slot, piece)
	fits := part(c.Chance, million-c.Misfit)
	ok := part(part(fits, million-c.Refused), million-c.Breakage)
	c.Fails = million - ok
	c.Paid = part(fits, c.Get+c.Give+c.Before+part(c.Refused, c.Strip)+part(million-c.Refused, c.Plate+c.Other))
	c.Paid += part(c.Chance-fits, c.Back)
	c.Cash = c.Get + c.Before + c.Plate + c.Other
	if piece.Off {
		c.Keep = r.st.Slots[slot].Keep
		c.Keeps = part(ok, c.Keep)
	}
	return c
}

// misfit is the chance that a piece, once it has come, doesn't fit, and what sending it back
// costs. It is a reproduction's alone, as long as it lies there untried and nobody has
// found out what handwork it takes.
func (r *Reader) misfit(slot int, piece *catalog.Piece) (chance catalog.Micro, back catalog.Cents) {
	untried := !piece.Tried && !within(piece.Fitted, slot) && !piece.Sent.Was && piece.Stage == catalog.StageSeen
	for i := range piece.Fit {
		untried = untried && piece.Fit[i].Slot != slot
	}
	if untried && piece.Kind == catalog.Reproduction {
		chance = or(r.st.Shop.Misfit, 0)
	}
	if chance > 0 && piece.Vendor >= 0 && piece.Bundle < 0 {
		back = r.st.Vendors[piece.Vendor].Freight
	}
	return chance, back
}

// arrival is how many days it takes until a piece is on the bench: its own, else its
// bundle's, else its vendor's.
func (r *Reader) arrival(p int) int {
	piece := &r.st.Pieces[p]
	vendor := piece.Vendor
	switch {
	case piece.Days.Set:
		return piece.Days.V
	case piece.Bundle >= 0:
		bundle := &r.st.Bundles[piece.Bundle]
		if bundle.Days.Set {
			return bundle.Days.V
		}
		vendor = bundle.Vendor
	}
	if vendor >= 0 {
		return r.st.Vendors[vendor].Days
	}
	return 0
}
