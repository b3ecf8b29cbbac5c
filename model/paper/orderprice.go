package paper

import (
	"slices"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Standing says how far a plater is bound by the price that stands on his order.
type Standing int

const (
	OurGuess   Standing = iota // he has named none
	HisGuess                   // he has named it without having seen the piece
	AfterStrip                 // he has named it, and looks again when the piece is stripped
	Agreed                     // firm, or gone ahead with
)

// OrderPrice is what stands on a plater's order for one position: his part of the work, for
// all its pieces, in cents.
type OrderPrice struct {
	Standing Standing
	Price    catalog.Cents
	Call     catalog.Cents // he calls before he goes above it; never below Price
}

// OrderPriceOf gives the price on the order for one line of a plan. The most that we would
// pay stays in the shop: above the price he calls from a margin of the shop's own on, and
// where that margin would reach what we would pay at most, from the price itself. The same
// figure limits what the owner is charged without being asked. stops are what is known of
// the most we would pay, whole says that it is known of every piece.
func OrderPriceOf(pl *plan.Plan, l *plan.Line, stops []ask.StopPrice, whole bool) OrderPrice {
	p := OrderPrice{Standing: standingOf(pl, l.Choice), Price: l.Choice.Plate, Call: l.Choice.Plate}
	if !ask.PriceOpen(pl.Of, l.Choice) {
		return p
	}
	n := catalog.Cents(choice.Needed(pl.SlotOf(l)))
	one := p.Price / n // as many equal parts as there are pieces
	above := one + catalog.Of(pl.Of.Shop.CallAbove, one)
	at := slices.IndexFunc(stops, func(s ask.StopPrice) bool { return s.Slot == l.Slot })
	switch {
	case at < 0 && !whole:
	case at >= 0 && above >= stops[at].Highest && !(stops[at].NoOther && !stops[at].ByBudget):
	default:
		p.Call = n * above
	}
	return p
}

func standingOf(pl *plan.Plan, c *plan.Choice) Standing {
	piece := pl.PieceOf(c)
	switch {
	case piece.Stage >= catalog.StageApproved && c.Sent:
		return Agreed
	case c.Quote == catalog.None || !c.Plated():
		return OurGuess
	}
	return map[catalog.Firmness]Standing{catalog.Firm: Agreed, catalog.AfterStrip: AfterStrip,
		catalog.Estimate: HisGuess}[piece.Quotes[c.Quote].Firm]
}
