package check

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestExpectedByHand: what a line costs, worked out by hand.
func TestExpectedByHand(t *testing.T) {
	st := jobs.SmallJob()
	st.Pieces[1].Fits = []int{0, 1}
	st.Pieces[3].Fits = []int{0, 2}
	pick := func(piece int, work string, plater int, level string) *plan.Choice {
		again, _, why := Derive(st,
			&plan.Choice{Piece: piece, Work: work, Plater: plater, Level: level, Quote: catalog.None})
		if again == nil {
			t.Fatal(why)
		}
		return again
	}
	first := pick(0, catalog.WorkRepair, 0, "show") // paid 109.40, fails 0.213315
	tests := []struct {
		name string
		k, f *plan.Choice
		want catalog.Cents
	}{
		// 109.40 + 0.213315 x 900.00
		{"rescue", first, nil, 109_40 + 191_98},
		// stand-in 0.8 x (150.00 + 9.00) + 0.2 x 900.00 = 127.20 + 180.00
		{"a lead with its freight", first, pick(2, catalog.WorkAsIs, catalog.None, ""), 109_40 + 65_53},
		// the other way round: 120.00 + 0.2 x (105004 of 12.00 = 1.26, 894996 of the minimum 300.00
		// = 268.50, 25.00, 0.213315 x 900.00 = 191.98)
		{"plated at the minimum, with the lot's freight", pick(2, catalog.WorkAsIs, catalog.None, ""), first,
			120_00 + 97_35},
		// 0.213315 x 0: the bundle is charged to the whole
		{"out of a bundle", first, pick(3, catalog.WorkAsIs, catalog.None, ""), 109_40},
	}
	for _, test := range tests {
		if got := Expected(st, test.k, test.f); got != test.want {
			t.Errorf("%s: %d, want %d", test.name, got, test.want)
		}
	}
}

// TestChargesOfReserve: a bundle that only a fallback comes out of is paid
// with its vendor's freight; a bought fallback brings no freight to the whole.
func TestChargesOfReserve(t *testing.T) {
	st := jobs.SmallJob()
	at := func(slot, piece int) *plan.Choice {
		return &plan.Choice{Slot: slot, Piece: piece, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	}
	j := &audit{st: st, lines: []auditedLine{{slot: 0, k: at(0, 0), f: at(0, 3)}, {slot: 1, k: at(1, 1), f: at(1, 2)}}}
	due := j.chargesDue()
	if due[chargeKey{plan.ChargeBundle, 0}] != 60_00 || due[chargeKey{plan.ChargeVendorFreight, 1}] != 11_00 ||
		due[chargeKey{plan.ChargeVendorFreight, 0}] != 0 {
		t.Errorf("charges %v", due)
	}
}

// TestRiskLimit: -1e6 ln 0.9 = 105360.5, and one unit a slot; a line's part of
// it is -1e6 ln(1 - 0.5 x 0.25) = 133531.39.
func TestRiskLimit(t *testing.T) {
	if got := riskLimit(jobs.SmallJob(), 900_000); got != 105_365 {
		t.Errorf("limit %d, want 105365", got)
	}
	if got := riskWeight(&plan.Choice{Fails: 500_000}, &plan.Choice{Fails: 250_000}); got != 133_531 {
		t.Errorf("weight %d, want 133531", got)
	}
}
