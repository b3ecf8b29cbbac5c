package risk

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// leads is a plan of n leads of grade 91 at 100.01 that come with a chance of nine in ten; a
// rescue of 300.00 is as good as the floor of 60.
func leads(n int) *plan.Plan {
	st := &catalog.State{}
	p := &plan.Plan{Of: st}
	for s := range n {
		slot := catalog.Slot{Quantity: 1, Weight: 100, Rescue: jobs.Given(catalog.Cents(300_00))}
		slot.Target.Floor = jobs.Given(catalog.Centi(60_00))
		st.Slots = append(st.Slots, slot)
		st.Pieces = append(st.Pieces, catalog.Piece{Chance: 900_000})
		p.Lines = append(p.Lines, plan.Line{Slot: s, Choice: &plan.Choice{Slot: s, Piece: s, Work: catalog.WorkAsIs,
			Plater: catalog.None, Quote: catalog.None, Chance: 900_000, Get: 100_01, Cash: 100_01, Grade: 91_00}})
	}
	return p
}

// TestNineInTenExactly: what is reached with a chance of exactly nine in ten is reached in nine
// of ten.
func TestNineInTenExactly(t *testing.T) {
	r := RiskOf(context.Background(), leads(1))
	if r.Grade(0.9) != 91 || r.Grade(0.91) != 60 {
		t.Errorf("%v in nine of ten, %v in 91 of 100", r.Grade(0.9), r.Grade(0.91))
	}
}
