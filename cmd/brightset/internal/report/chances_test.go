package report

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/risk"
)

// TestChanceBetween: a chance that is not exact is told by what it lies between, where that is two
// figures, and never as certain.
func TestChanceBetween(t *testing.T) {
	for _, tt := range []struct {
		least, most float64
		want        string
	}{
		{0.81, 0.81, "81.0%"}, {0.80996, 0.81004, "81.0%"}, {0.528, 0.81, "between 52.8% and 81.0%"},
		{0, 0, "0.0%"}, {0, 0.0002, "less than 0.1%"}, {0, 0.2, "between 0.0% and 20.0%"},
		{1, 1, "100.0%"}, {0.9999, 1, "more than 99.9%"}, {0.9, 1, "between 90.0% and 100.0%"},
	} {
		if got := chanceBetween(risk.Between{Least: tt.least, Most: tt.most}); got != tt.want {
			t.Errorf("%v to %v: %q, want %q", tt.least, tt.most, got, tt.want)
		}
	}
}

// manyWays is a plan of so many leads, each at a price of its own, that what is spent can't be told
// to the cent.
func manyWays() *plan.Plan {
	st := &catalog.State{}
	p := &plan.Plan{Of: st}
	cents := catalog.Cents(1)
	for s := range 24 {
		cents = (cents*7919 + 104729) % 1_000_003
		slot := catalog.Slot{Quantity: 1, Weight: 100, Rescue: catalog.Val[catalog.Cents]{V: 3 * cents, Set: true}}
		st.Slots, st.Pieces = append(st.Slots, slot), append(st.Pieces, catalog.Piece{Chance: 900_000})
		p.Lines = append(p.Lines, plan.Line{Slot: s, Choice: &plan.Choice{Slot: s, Piece: s, Work: catalog.WorkAsIs,
			Plater: catalog.None, Quote: catalog.None, Chance: 900_000, Get: cents, Cash: cents, Grade: 91_00}})
		p.Outlay += cents
	}
	st.Job.Budget = catalog.Val[catalog.Cents]{V: p.Outlay, Set: true}
	return p
}

// TestOffBySaid: where sums are told by steps, text and document say by how much they may be off;
// where they are exact nothing is said.
func TestOffBySaid(t *testing.T) {
	many := manyWays()
	few := manyWays()
	few.Lines = few.Lines[:3]
	for _, p := range []*plan.Plan{many, few} {
		r := risk.RiskOf(context.Background(), p)
		if (r.Cash.Off > 0) != (p == many) || r.Coarse || r.Budget.Least > r.Budget.Most {
			t.Fatalf("%d lines: off by %d, coarse %v, %v", len(p.Lines), r.Cash.Off, r.Coarse, r.Budget)
		}
		s := &risk.Simulation{}
		if text := Risk(r, s, nil, false); strings.Contains(text, "off by") != (p == many) {
			t.Errorf("%d lines: %s", len(p.Lines), text)
		}
		text, err := RiskJSON(r, s, nil)
		var doc struct {
			Off   catalog.Cents `json:"cash_off_cents"`
			Least float64       `json:"in_budget"`
			Most  float64       `json:"in_budget_most"`
		}
		if err == nil {
			err = json.Unmarshal([]byte(text), &doc)
		}
		if err != nil || doc.Off != r.Cash.Off || doc.Least != r.Budget.Least || doc.Most != r.Budget.Most {
			t.Errorf("%d lines: %+v, %v", len(p.Lines), doc, err)
		}
	}
}
