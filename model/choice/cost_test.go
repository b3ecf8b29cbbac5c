package choice

import (
	"fmt"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// Two pieces, each: price 10.00, plater 50.00, shop 5.00, strip fee 8.00, breaks
// 0.1, refused 0.2; comes with 0.9.
//
//	b = 1 - 0.9^2 = 0.19     r = 1 - 0.8^2 = 0.36
//	ok = 0.9 x 0.64 x 0.81 = 0.46656      p = 0.53344
//	paid = 0.9 (20 + 0.36 x 16 + 0.64 x 110) = 0.9 x 96.16 = 86.544
//	cash = 20 + 100 + 10 = 130
//	fallback = 0.9 (20 + 5.76 + 0.64 (200 + 10) + 30 + 15) + 0.53344 x 450
//	        = 184.644 + 240.048
func TestFiguresOfChoice(t *testing.T) {
	st := jobs.Tiny()
	st.Slots[jobs.Left].Quantity = 2
	st.Platers[jobs.North].Minimum = 200_00
	p := &st.Pieces[jobs.Sold]
	p.Quantity, p.Price, p.Chance = 2, 10_00, 900_000
	d := draft{work: catalog.WorkReplate, plater: jobs.North, plate: 50_00, other: 5_00, breakage: 100_000,
		refused: 200_000}
	c := d.choice(st, jobs.Left, jobs.Sold)
	if c.Breakage != 190_000 || c.Refused != 360_000 || c.Fails != 533_440 || c.Get != 20_00 || c.Strip != 16_00 ||
		c.ExpectedCost != 86_54 || c.Cash != 130_00 {
		t.Errorf("got %+v", c)
	}
	if got := FallbackCost(st, &c); got != 184_64+240_05 {
		t.Errorf("fallback %d, want %d", got, 184_64+240_05)
	}
	// out of a bundle no vendor's freight: 0.9 x 15 = 13.50 less, 171.144
	p.Bundle = 0
	if got := FallbackCost(st, &c); got != 171_14+240_05 {
		t.Errorf("fallback out of a bundle %d, want %d", got, 171_14+240_05)
	}
}

// What the customer's piece would fetch is a cost, but not cash.
func TestValue(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Other].Value = 40_00
	c := jobs.Pick(Choices(st)[jobs.Left], jobs.Other, catalog.WorkAsIs, catalog.None, "")
	if c.ExpectedCost != 40_00 || c.Cash != 0 {
		t.Errorf("paid %d cash %d", c.ExpectedCost, c.Cash)
	}
}

// bare at south, show: 80.00, breaks 0.01. E with other (as it is) in reserve:
// 80 + 0.01 x 0; with none 80 + 0.01 x 450 = 84.50; with sold in reserve 80 +
// 0.01 (100 + 15).
func TestExpected(t *testing.T) {
	st := jobs.Tiny()
	all := Choices(st)[jobs.Left]
	k := jobs.Pick(all, jobs.Bare, catalog.WorkReplate, jobs.South, "show")
	for _, tt := range []struct {
		f    *plan.Choice
		want catalog.Cents
	}{
		{nil, 84_50},
		{jobs.Pick(all, jobs.Other, catalog.WorkAsIs, catalog.None, ""), 80_00},
		{jobs.Pick(all, jobs.Sold, catalog.WorkAsIs, catalog.None, ""), 81_15},
	} {
		if got := Expected(st, k, tt.f); got != tt.want {
			t.Errorf("expected %d, want %d", got, tt.want)
		}
	}
}

func TestArrival(t *testing.T) {
	st := jobs.Tiny()
	for _, tt := range []struct {
		name   string
		change func()
		piece  int
		want   int
	}{
		{"own piece", func() {}, jobs.Bare, 0},
		{"vendor's", func() {}, jobs.Sold, 7},
		{"bundle without days", func() {}, jobs.Bagged, 7},
		{"bundle's", func() { st.Bundles[0].Days = jobs.Given(3) }, jobs.Bagged, 3},
		{"piece's", func() { st.Pieces[jobs.Bagged].Days = jobs.Given(0) }, jobs.Bagged, 0},
	} {
		tt.change()
		if got := Arrival(st, &st.Pieces[tt.piece]); got != tt.want {
			t.Errorf("%s: %d days, want %d", tt.name, got, tt.want)
		}
	}
}

// A line rests on the rescue only where it can come to one.
func TestLineRests(t *testing.T) {
	st := jobs.Tiny()
	all := Choices(st)[jobs.Left]
	k, f := jobs.Pick(all, jobs.Bare, catalog.WorkReplate, jobs.South, "show"),
		jobs.Pick(all, jobs.Other, catalog.WorkAsIs, catalog.None, "")
	for _, tt := range []struct {
		f    *plan.Choice
		want string
	}{{nil, "[breakage of plating steel the cost of a rescue]"}, {f, "[breakage of plating steel]"}} {
		if got := fmt.Sprint(LineAssumptions(st, &plan.Line{Slot: jobs.Left, Choice: k, Fallback: tt.f})); got !=
			tt.want {
			t.Errorf("got %s, want %s", got, tt.want)
		}
	}
}

// TestDayDone: a set is done with its slowest piece, counted from the day where the job
// stands; what is held in reserve counts for the latest day only.
func TestDayDone(t *testing.T) {
	st := jobs.Tiny()
	st.Job.Elapsed = 5
	p := &plan.Plan{Of: st, Lines: []plan.Line{
		{Slot: jobs.Left, Choice: &plan.Choice{Days: 10, Fails: 1}, Fallback: &plan.Choice{Days: 30}},
		{Slot: jobs.Right, Choice: &plan.Choice{Days: 20}},
	}}
	if well, late := DayDone(st, p), LastDay(st, p); well != 25 || late != 45 {
		t.Errorf("done on day %d if all goes well, want 25; on day %d at the latest, want 45", well, late)
	}
}
