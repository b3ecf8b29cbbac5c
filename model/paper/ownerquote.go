package paper

import (
	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// OwnerLine is what one slot comes to in the quote to the owner, in cents.
type OwnerLine struct {
	Slot    int
	Plating catalog.Cents // platers' and makers' work, with its markup
	Bench   catalog.Cents // the shop's own work on the piece
	Parts   catalog.Cents // what is bought, with its markup
	Labour  catalog.Cents // taking off, listing, packing, fitting
	Total   catalog.Cents
	Limit   catalog.Cents // not to be exceeded without asking; 0 where nothing can change
}

// OwnerSums is the quote added up. Every sum is of whole cents: lines are rounded half
// up once, and everything below them is exact.
type OwnerSums struct {
	Lines       []OwnerLine
	Spent       catalog.Cents // for work and parts already, with the markup on plating
	Carriage    catalog.Cents // freights, least lots, bundles, less credits; with markups
	Net         catalog.Cents
	Tax         catalog.Cents
	Total       catalog.Cents
	Deposit     catalog.Cents // of Total
	AfterStrip  catalog.Cents
	Balance     catalog.Cents // the rest
	Contingency catalog.Cents // set aside on top, tax included; not part of Total
}

// OwnerQuoteOf prices a plan for the owner. The limit of a line is what he is charged where
// the plater charges what he may without a call. stops are known of every open price.
// contingency is what nine jobs in ten need on top at cost; it is passed on with the markup
// on plating, and taxed.
func OwnerQuoteOf(pl *plan.Plan, stops []ask.StopPrice, contingency catalog.Cents) *OwnerSums {
	q := &pl.Of.Quote
	s := &OwnerSums{}
	for i := range pl.Lines {
		line := ownerLine(pl, &pl.Lines[i], stops)
		s.Lines = append(s.Lines, line)
		s.Net += line.Total
	}
	plating, parts := catalog.Cents(0), catalog.Cents(0)
	for _, c := range pl.Charges {
		switch c.Kind {
		case plan.ChargePlaterFreight, plan.ChargeMinimum:
			plating += c.Cents
		default:
			parts += c.Cents
		}
	}
	s.Carriage = marked(plating, q.Plating) + marked(max(0, parts), q.Parts) + min(0, parts)
	s.Spent = marked(max(0, pl.Of.Job.SpentSum), q.Plating) + min(0, pl.Of.Job.SpentSum)
	s.Net += s.Carriage + s.Spent
	s.Tax = catalog.Of(q.Tax, max(0, s.Net))
	s.Total = s.Net + s.Tax
	s.Deposit, s.AfterStrip = catalog.Of(q.Deposit, max(0, s.Total)), catalog.Of(q.Strip, max(0, s.Total))
	s.Balance = s.Total - s.Deposit - s.AfterStrip
	extra := marked(contingency, q.Plating)
	s.Contingency = extra + catalog.Of(q.Tax, extra)
	return s
}

// marked is a sum with a markup on it, which is rounded half up.
func marked(c catalog.Cents, markup catalog.Micro) catalog.Cents { return c + catalog.Of(markup, c) }

func ownerLine(pl *plan.Plan, l *plan.Line, stops []ask.StopPrice) OwnerLine {
	q, c := &pl.Of.Quote, l.Choice
	line := OwnerLine{Slot: l.Slot}
	outside := c.Plate
	for _, part := range c.Parts {
		if part.Doer == plan.ByMaker {
			outside += part.Cost
		}
	}
	line.Plating = marked(outside, q.Plating)
	line.Bench = c.Before + c.Plate + c.Other - outside
	line.Parts = marked(c.Get, q.Parts)
	line.Labour = catalog.Of(q.Removal+q.Tagging+q.Packing+q.Fitting, q.Hourly.Or(0))
	line.Total = line.Plating + line.Bench + line.Parts + line.Labour
	if price := OrderPriceOf(pl, l, stops, true); price.Call > price.Price {
		line.Limit = line.Total + marked(outside+price.Call-price.Price, q.Plating) - line.Plating
	}
	return line
}
