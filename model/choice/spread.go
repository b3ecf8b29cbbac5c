package choice

import (
	"time"

	"brightset/catalog"
	"brightset/model/plan"
)

// How far what is paid in the end lies from what was planned, in hundredths of
// the sum: common practice, no published source.
const (
	SpreadEstimate   = 15
	spreadAfterStrip = 10
)

// Spread is by how much the work on a choice may come out dearer than planned:
// nothing on a firm quote, 30 in 100 on one that is old, a tenth on a price after strip, 15 in 100 on estimates
// and on hours; or what a quote's own range says. What is bought has its price.
func Spread(st *catalog.State, c *plan.Choice) catalog.Cents {
	sum := (c.Before + c.Other) * SpreadEstimate / 100
	if c.Quote == catalog.None {
		return sum + c.Plate*SpreadEstimate/100
	}
	q := &st.Pieces[c.Piece].Quotes[c.Quote]
	if oldQuote(st, q) { // whatever it says, prices have moved since
		wide := c.Plate * 2 * SpreadEstimate / 100
		if q.Low.Set && q.High.Set {
			wide = max(wide, (q.High.V-q.Low.V)/2*catalog.Cents(Needed(&st.Slots[c.Slot])))
		}
		return sum + wide
	}
	switch {
	case q.Low.Set && q.High.Set:
		return sum + (q.High.V-q.Low.V)/2*catalog.Cents(Needed(&st.Slots[c.Slot]))
	case q.Firm == catalog.Firm:
		return sum
	case q.Firm == catalog.AfterStrip:
		return sum + c.Plate*spreadAfterStrip/100
	}
	return sum + c.Plate*SpreadEstimate/100
}

// oldAfter is the age in days from which a quote is as uncertain as two estimates.
// Common practice, no published source.
const oldAfter = 180

// oldQuote says whether a quote is old on the day where the job stands: that of the last
// thing recorded, else its start. Without either, nobody knows.
func oldQuote(st *catalog.State, q *catalog.Quote) bool {
	day := st.Job.AsOf
	if day.IsZero() {
		day = st.Job.Start.V
	}
	return q.Date.Set && !day.IsZero() && day.Sub(q.Date.V) > oldAfter*24*time.Hour
}

// EstimatingError is how far apart two choices for one slot may be and still be
// as good as level on these figures: none for a choice and itself.
func EstimatingError(st *catalog.State, a, b *plan.Choice) catalog.Cents {
	if plan.SameChoice(a, b) {
		return 0
	}
	return Spread(st, a) + Spread(st, b)
}
