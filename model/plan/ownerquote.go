package plan

import "brightset/catalog"

// OwnerLine is what the choice for one slot comes to in the quote to the owner, in cents.
type OwnerLine struct {
	Plating catalog.Cents // platers' and makers' work, with its markup
	Bench   catalog.Cents // the shop's own work on the piece
	Parts   catalog.Cents // what is bought, with its markup
	Labour  catalog.Cents // taking off, listing, packing, fitting
	Total   catalog.Cents
}

// OwnerSums is the quote added up. Every sum is of whole cents: a markup is rounded half up
// once in each line, and once on all charges together.
type OwnerSums struct {
	Spent    catalog.Cents // for work and parts already, with the markups
	Carriage catalog.Cents // freights, least lots, bundles, with markups; less credits and what is evened out, as they are
	Net      catalog.Cents // of the lines, Spent and Carriage
	Tax      catalog.Cents
	Total    catalog.Cents // what the owner pays if all goes well
}

// OwnerLineOf is what a choice comes to for the owner.
func OwnerLineOf(st *catalog.State, c *Choice) OwnerLine {
	q := &st.Quote
	l := OwnerLine{
		Plating: Marked(c.Plate+c.Makers, q.Plating),
		Bench:   c.Before - c.Makers + c.Other,
		Parts:   Marked(c.Get, q.Parts),
		Labour:  q.Labour(c.Plated() || st.Pieces[c.Piece].Sent.Was), // what is back was packed, too
	}
	l.Total = l.Plating + l.Bench + l.Parts + l.Labour
	return l
}

// ForOwner prices the plan for the owner.
func (p *Plan) ForOwner() OwnerSums {
	q := &p.Of.Quote
	s := OwnerSums{Spent: OwnerSpent(p.Of)}
	plating, bought, credits := catalog.Cents(0), catalog.Cents(0), catalog.Cents(0)
	for _, c := range p.Charges {
		switch c.Kind {
		case ChargePlaterFreight, ChargeMinimum:
			plating += c.Cents
		case ChargeTrade, ChargeEvened:
			credits -= c.Cents
		default:
			bought += c.Cents
		}
	}
	whole, rest := partOf(plating, q.Plating)
	more, beside := partOf(bought, q.Parts)
	const one = catalog.Cents(catalog.One)
	s.Carriage = plating + bought - credits + whole + more + (rest+beside+one/2)/one
	s.Net = s.Spent + s.Carriage
	for i := range p.Lines {
		s.Net += OwnerLineOf(p.Of, p.Lines[i].Choice).Total
	}
	s.Tax = catalog.Of(q.Tax, max(0, s.Net))
	s.Total = s.Net + s.Tax
	return s
}

// partOf is a share of a sum, in whole cents and the millionths of a cent that are left.
func partOf(c catalog.Cents, share catalog.Micro) (whole, rest catalog.Cents) {
	one := catalog.Cents(catalog.One)
	rest = c % one * catalog.Cents(share)
	return c/one*catalog.Cents(share) + rest/one, rest % one
}

// OwnerSpent is what is spent already as the owner is charged for it: each sum with the markup
// that it bears, but what went into pieces that broke or got lost at cost, unless the shop's
// terms say otherwise.
func OwnerSpent(st *catalog.State) catalog.Cents {
	plain, parts := catalog.Cents(0), catalog.Cents(0)
	for _, s := range st.Job.Spent {
		switch {
		case atCost(st, &s), s.Bears == catalog.BearsNone:
			plain += s.Cents
		case s.Bears == catalog.BearsParts:
			parts += s.Cents
		}
	}
	plating := st.Job.SpentSum - plain - parts
	return plain + Marked(max(0, parts), st.Quote.Parts) + min(0, parts) +
		Marked(max(0, plating), st.Quote.Plating) + min(0, plating)
}

// atCost says whether a sum went into a piece that is no more, and the shop bears what it would
// have earned by it.
func atCost(st *catalog.State, s *catalog.Spent) bool {
	if s.Piece == catalog.None || s.Cents <= 0 || st.Quote.Broken {
		return false
	}
	stage := st.Pieces[s.Piece].Stage
	return stage == catalog.StageBroken || stage == catalog.StageLost
}

// OwnerNet is the highest net of a quote with which the owner pays no more than a sum, tax
// included.
func OwnerNet(q *catalog.OwnerQuote, pays catalog.Cents) catalog.Cents { return Unmarked(q.Tax, pays) }

// OwnerOnTop is what the owner pays, tax included, for what comes on top of the plan's outlay.
func OwnerOnTop(q *catalog.OwnerQuote, cost catalog.Cents) catalog.Cents {
	return Marked(Marked(cost, q.Plating), q.Tax)
}

// RoomOnTop is the most that may come on top of the plan's outlay if a budget on what the
// owner pays is to be kept.
func (p *Plan) RoomOnTop() catalog.Cents {
	return Unmarked(p.Of.Quote.Plating, OwnerNet(&p.Of.Quote, p.BudgetLeft()))
}

// Marked is a sum with a share of it on top, which is rounded half up.
func Marked(c catalog.Cents, share catalog.Micro) catalog.Cents { return c + catalog.Of(share, c) }

// Unmarked is the largest sum that is no more than another once it is marked.
func Unmarked(share catalog.Micro, marked catalog.Cents) catalog.Cents {
	if marked <= 0 || share == 0 {
		return marked
	}
	least, over := catalog.Cents(0), marked+1
	for over-least > 1 {
		if middle := least + (over-least)/2; Marked(middle, share) <= marked {
			least = middle
		} else {
			over = middle
		}
	}
	return least
}
