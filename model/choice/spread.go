package choice

import (
	"time"

	"brightset/catalog"
	"brightset/model/plan"
)

// Span is how far what is paid in the end may lie from what was planned, in cents: so much
// less, or so much more.
type Span struct{ Below, Above catalog.Cents }

func (a Span) plus(b Span) Span { return Span{a.Below + b.Below, a.Above + b.Above} }

// Spread is the span of the work on a choice: the plater's part as PlateSpread has it, and
// the hours of the shop and of makers, which are guesses like any other. What is bought
// has its price.
func Spread(st *catalog.State, c *plan.Choice) Span {
	return GuessSpread(st, c.Before+c.Other).plus(PlateSpread(st, c))
}

// GuessSpread is the span of a guess, by the trade tables.
func GuessSpread(st *catalog.State, sum catalog.Cents) Span {
	s := &st.Tables.Spread
	return Span{catalog.Of(s.Low.V, sum), catalog.Of(s.High.V, sum)}
}

// PlaterSpread is how far a guess of a plater's work may be off, as shares of it: his own, as
// the shop says or as it was learnt of him, else that of the trade tables.
func PlaterSpread(st *catalog.State, plater int) catalog.Spread {
	s, own := st.Tables.Spread, &st.Platers[plater].Spread
	if own.Low.Set {
		s.Low = own.Low
	}
	if own.High.Set {
		s.High = own.High
	}
	return s
}

// oldSpread is by how much a quote that is old may be off at least, in hundredths of it.
// Common practice, no published source.
const oldSpread = 30

// PlateSpread is the span of the plater's part: nothing on a firm quote, else that of a
// guess of his work, after strip or not, since it is then that prices rise; in place of either the ends
// of the quote's own range, where it names them. A quote that is old is off by 30 in 100
// either way if not by more, whatever it says.
func PlateSpread(st *catalog.State, c *plan.Choice) Span {
	off := GuessSpread(st, c.Plate)
	if c.Plated() {
		own := PlaterSpread(st, c.Plater)
		off = Span{catalog.Of(own.Low.V, c.Plate), catalog.Of(own.High.V, c.Plate)}
	}
	if c.Quote == catalog.None {
		return off
	}
	q := &st.Pieces[c.Piece].Quotes[c.Quote]
	if q.Firm == catalog.Firm {
		off = Span{}
	}
	n := catalog.Cents(Needed(&st.Slots[c.Slot]))
	if q.Low.Set {
		off.Below = max(0, c.Plate-n*q.Low.V)
	}
	if q.High.Set {
		off.Above = max(0, n*q.High.V-c.Plate)
	}
	if oldQuote(st, q) { // prices have moved since
		wide := c.Plate * oldSpread / 100
		off = Span{max(off.Below, wide), max(off.Above, wide)}
	}
	return off
}

// oldAfter is the age in days from which a quote is old.
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

// EstimatingError is how much dearer than a choice another for its slot may be and still be
// as good as level on these figures, since the one may come out dearer and the other
// cheaper than planned: nothing for a choice and itself.
func EstimatingError(st *catalog.State, c, other *plan.Choice) catalog.Cents {
	if plan.SameChoice(c, other) {
		return 0
	}
	return Spread(st, c).Above + Spread(st, other).Below
}
