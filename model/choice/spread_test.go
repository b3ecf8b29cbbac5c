package choice

import (
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestOldQuote: a quote of more than 180 days widens to 30 in 100, firm or not.
func TestOldQuote(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 1), Pieces: make([]catalog.Piece, 1)}
	st.Job.Start = jobs.Given(time.Date(2031, 7, 10, 0, 0, 0, 0, time.UTC))
	q := catalog.Quote{Firm: catalog.Firm, Date: jobs.Given(time.Date(2031, 1, 11, 0, 0, 0, 0, time.UTC))}
	c := &plan.Choice{Plate: 100_00, Plater: 0}
	for _, k := range []struct {
		change func()
		want   catalog.Cents
	}{
		{func() {}, 0}, // 180 days: still good
		{func() { q.Date.V = q.Date.V.AddDate(0, 0, -1) }, 30_00},
		{func() { q.Low, q.High = jobs.Given(catalog.Cents(50_00)), jobs.Given(catalog.Cents(150_00)) }, 50_00},
		{func() { st.Job.AsOf = q.Date.V.AddDate(0, 0, 10) }, 50_00}, // recorded when it was fresh: its own range
		{func() { q.Low, q.High = catalog.Val[catalog.Cents]{}, catalog.Val[catalog.Cents]{} }, 0},
		{func() { q.Date = catalog.Val[time.Time]{} }, 0},
	} {
		k.change()
		st.Pieces[0].Quotes = []catalog.Quote{q}
		if got := Spread(st, c); got != k.want {
			t.Errorf("%v: %d, want %d", q.Date.V, got, k.want)
		}
	}
}
