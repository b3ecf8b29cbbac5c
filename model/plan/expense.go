package plan

import "brightset/catalog"

// ExpenseKind says what money is spent on.
type ExpenseKind int

// The kinds of expense, in the order in which they are shown.
const (
	Plating      ExpenseKind = iota // platers' work, least lots and freight aside
	OwnBench                        // the shop's own works, before plating and after
	Makers                          // works of others, such as posts
	Purchases                       // pieces bought, bundles aside
	Bundles                         // pieces bought together
	Freight                         // platers' and vendors'
	LeastLots                       // what tops lots up to the platers' least
	Foregone                        // what the customer's pieces would fetch if they were not used
	Failures                        // what failing costs on average: fallbacks and rescues
	TradeCredits                    // below zero
	expenseKinds
)

// Expense is what a plan spends on one kind of thing, in cents.
type Expense struct {
	Kind  ExpenseKind
	Cents catalog.Cents
}

// Expenses take the expected total of a plan apart by kind; they add up to it. Kinds on
// which nothing is spent are left out.
func Expenses(p *Plan) []Expense {
	var sums [expenseKinds]catalog.Cents
	for i := range p.Lines {
		l := &p.Lines[i]
		c := l.Choice
		sums[Plating] += c.Plate
		sums[Makers] += c.Makers
		sums[OwnBench] += c.Before - c.Makers + c.Other
		sums[Purchases] += c.Get
		sums[Foregone] += c.Give
		sums[Failures] += l.Expected - c.Cash - c.Give
	}
	for _, c := range p.Charges {
		sums[expenseOf(c.Kind)] += c.Cents
	}
	var all []Expense
	for kind, cents := range sums {
		if cents != 0 {
			all = append(all, Expense{ExpenseKind(kind), cents})
		}
	}
	return all
}

func expenseOf(kind ChargeKind) ExpenseKind {
	switch kind {
	case ChargeMinimum:
		return LeastLots
	case ChargeBundle:
		return Bundles
	case ChargeTrade:
		return TradeCredits
	}
	return Freight
}
