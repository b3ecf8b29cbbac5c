package paper

import (
	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// OwnerLine is what one slot comes to in the quote to the owner.
type OwnerLine struct {
	plan.OwnerLine
	Slot  int
	Limit catalog.Cents // not to be exceeded without asking; 0 where the price is settled
}

// OwnerSums is the quote with its stages, in whole cents.
type OwnerSums struct {
	plan.OwnerSums
	Lines       []OwnerLine
	Deposit     catalog.Cents // of Total
	AfterStrip  catalog.Cents
	Balance     catalog.Cents // the rest
	Contingency catalog.Cents // set aside on top, tax included; not part of Total
}

// OwnerQuoteOf prices a plan for the owner. The limit of a line is what he is charged where
// the plater charges what he may without a call. stops are what is known of the most we would
// pay, whole says that it is known of every open price.
// contingency is what nine jobs in ten need on top at cost; it is passed on with the markup
// on plating, and taxed.
func OwnerQuoteOf(pl *plan.Plan, stops []ask.StopPrice, whole bool, contingency catalog.Cents) *OwnerSums {
	q := &pl.Of.Quote
	s := &OwnerSums{OwnerSums: pl.ForOwner(), Contingency: plan.OwnerOnTop(q, contingency)}
	for i := range pl.Lines {
		l := &pl.Lines[i]
		line := OwnerLine{OwnerLine: plan.OwnerLineOf(pl.Of, l.Choice), Slot: l.Slot}
		if price := OrderPriceOf(pl, l, stops, whole); ask.PriceOpen(pl.Of, l.Choice) {
			dearer := *l.Choice
			dearer.Plate += price.Call - price.Price
			line.Limit = plan.OwnerLineOf(pl.Of, &dearer).Total
		}
		s.Lines = append(s.Lines, line)
	}
	s.Deposit, s.AfterStrip = catalog.Of(q.Deposit, max(0, s.Total)), catalog.Of(q.Strip, max(0, s.Total))
	s.Balance = s.Total - s.Deposit - s.AfterStrip
	return s
}
