package report

import (
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// TestRejection: of a piece of which it was not proven what the set costs with it, what is known is
// said, and no more than that.
func TestRejection(t *testing.T) {
	st := &catalog.State{Slots: []catalog.Slot{{}}, Pieces: []catalog.Piece{{ID: "a"}}}
	p, c := &plan.Plan{Of: st}, &plan.Choice{Plater: catalog.None, Quote: catalog.None}
	for _, k := range []struct {
		r              ask.RejectedPiece
		mark, set, why string
	}{
		{ask.RejectedPiece{Open: true, Least: 3_00}, "dearer", "3.00 more at least; no set with it found in time", ""},
		{ask.RejectedPiece{Open: true, Least: 3_00, Choice: c, More: 9_00}, "dearer",
			"9.00 more; not proven, 3.00 more at least", ""},
		{ask.RejectedPiece{Open: true, Least: 3_00, Choice: c, More: -2_00, Keeps: -9_00}, "not the object's own",
			"2.00 less; not proven, 3.00 more at least", keepsMore(-9_00)},
		{ask.RejectedPiece{Least: 9_00, Choice: c, More: 9_00}, "dearer", "9.00 more", ""},
		{ask.RejectedPiece{Choice: c}, "as good", "", ""},
		{ask.RejectedPiece{Both: true}, "out", "", "no set with it meets all that is asked for"},
		{ask.RejectedPiece{Why: "it is plastic"}, "out", "", "it is plastic"},
	} {
		if mark, set, why := rejection(p, &k.r); mark != k.mark || set != k.set || why != k.why {
			t.Errorf("%+v: %q, %q, %q", k.r, mark, set, why)
		}
	}
}

// TestRuleBetween: what a demand costs is said as two sums where it is not proven.
func TestRuleBetween(t *testing.T) {
	w := &ask.Why{Rules: []ask.RulePrice{{Requirement: ask.Requirement{Words: "the date"}, Costs: 4_00, Most: 4_00},
		{Requirement: ask.Requirement{Words: "the mean"}, Costs: 4_00, Most: 6_00},
		{Requirement: ask.Requirement{Words: "the lock"}, Most: 6_00}}}
	got := rulePrices(w)
	for i, want := range []string{"the date: 4.00", "the mean: 4.00 to 6.00", "the lock: no more than 6.00"} {
		if got[i] != want {
			t.Errorf("%q, want %q", got[i], want)
		}
	}
}
