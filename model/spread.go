package model

import "brightset/catalog"

// How far what is paid in the end lies from what was planned, in hundredths of
// the sum: common practice, no published source.
const (
	spreadEstimate   = 15
	spreadAfterStrip = 10
)

// Spread is by how much the work on a choice may come out dearer than planned:
// nothing on a firm quote, a tenth on a price after strip, 15 in 100 on estimates
// and on hours; or what a quote's own range says. What is bought has its price.
func Spread(st *catalog.State, c *Choice) catalog.Cents {
	sum := c.Other * spreadEstimate / 100
	if c.Quote == catalog.None {
		return sum + c.Plate*spreadEstimate/100
	}
	q := &st.Pieces[c.Piece].Quotes[c.Quote]
	switch {
	case q.Low.Set && q.High.Set:
		return sum + (q.High.V-q.Low.V)/2*catalog.Cents(needed(&st.Slots[c.Slot]))
	case q.Firm == catalog.Firm:
		return sum
	case q.Firm == catalog.AfterStrip:
		return sum + c.Plate*spreadAfterStrip/100
	}
	return sum + c.Plate*spreadEstimate/100
}

// EstimatingError is how far apart two choices for one slot may be and still be
// as good as level on these figures: none for a choice and itself.
func EstimatingError(st *catalog.State, a, b *Choice) catalog.Cents {
	if sameChoice(a, b) {
		return 0
	}
	return Spread(st, a) + Spread(st, b)
}
