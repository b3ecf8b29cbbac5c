package choice

import (
	"testing"
	"time"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestSpreadByHand: 100.00 for the plater and 20.00 of hours, guesses 10 in 100 less or 35
// more; what a firm quote or a quote's own range says is about the plater's part alone.
func TestSpreadByHand(t *testing.T) {
	st := jobs.Tiny()
	quoted := func(firm catalog.Firmness) *catalog.Quote { return &catalog.Quote{Firm: firm} }
	ranged := quoted(catalog.Estimate)
	ranged.Low, ranged.High = jobs.Given(catalog.Cents(90_00)), jobs.Given(catalog.Cents(150_00))
	for _, k := range []struct {
		name  string
		quote *catalog.Quote
		want  Span
	}{
		{"estimate", nil, Span{12_00, 42_00}},
		{"estimate of his", quoted(catalog.Estimate), Span{12_00, 42_00}},
		{"after strip", quoted(catalog.AfterStrip), Span{12_00, 42_00}},
		{"firm", quoted(catalog.Firm), Span{2_00, 7_00}},
		{"range", ranged, Span{12_00, 57_00}},
	} {
		c := &plan.Choice{Plate: 100_00, Before: 5_00, Other: 15_00, Quote: catalog.None}
		if k.quote != nil {
			c.Quote, st.Pieces[0].Quotes = 0, []catalog.Quote{*k.quote}
		}
		if got := Spread(st, c); got != k.want {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		}
	}
}

// TestEstimatingErrorHasASide: the choice may come out dearer and the other cheaper; it is
// not as far the other way.
func TestEstimatingErrorHasASide(t *testing.T) {
	st := jobs.Tiny()
	dear := &plan.Choice{Plate: 200_00, Quote: catalog.None, Plater: 0}
	cheap := &plan.Choice{Plate: 100_00, Quote: catalog.None, Plater: 1}
	if got := EstimatingError(st, cheap, dear); got != 35_00+20_00 {
		t.Error(got)
	}
	if got := EstimatingError(st, dear, cheap); got != 70_00+10_00 {
		t.Error(got)
	}
	if got := EstimatingError(st, dear, dear); got != 0 {
		t.Error(got)
	}
}

// TestOldQuote: a quote of more than 180 days widens to 30 in 100 either way, firm or not.
func TestOldQuote(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 1), Pieces: make([]catalog.Piece, 1),
		Platers: make([]catalog.Plater, 1)}
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
		if got := Spread(st, c); got != (Span{k.want, k.want}) {
			t.Errorf("%v: %v, want %d", q.Date.V, got, k.want)
		}
	}
}

// TestSpreadOfHisOwn: what is known of a plater replaces the starting spread of guesses of his
// work, each end by itself; the hours of others are guesses as before.
func TestSpreadOfHisOwn(t *testing.T) {
	st := jobs.Tiny()
	st.Platers[jobs.North].Spread.High = jobs.Given(catalog.Micro(220_000))
	c := &plan.Choice{Plater: jobs.North, Plate: 100_00, Other: 20_00, Quote: catalog.None}
	if got := Spread(st, c); got != (Span{12_00, 22_00 + 7_00}) {
		t.Error(got)
	}
	c.Plater = jobs.South
	if got := Spread(st, c); got != (Span{12_00, 42_00}) {
		t.Error(got)
	}
}
