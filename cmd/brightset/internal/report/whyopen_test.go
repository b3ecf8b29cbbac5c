package report

import (
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/solver"
)

// TestWhyUnproven: of a choice that was not asked about to the end nobody is told that no set
// with it meets the demands, nor that the set in hand is the least.
func TestWhyUnproven(t *testing.T) {
	st := &catalog.State{Slots: []catalog.Slot{{ID: "grille"}}, Pieces: []catalog.Piece{{ID: "one", Name: "one"},
		{ID: "two", Name: "two"}, {ID: "three", Name: "three"}}}
	of := func(piece int) *plan.Choice {
		return &plan.Choice{Piece: piece, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	}
	set := func(piece int, cents catalog.Cents, status solver.Status) *plan.Plan {
		return &plan.Plan{Of: st, Has: cents > 0, Status: status, Expected: cents, Lines: []plan.Line{{Choice: of(piece)}}}
	}
	w := &ask.Why{Advised: set(0, 100_00, solver.Optimal), Stopped: true, Alternatives: []ask.Alternative{
		{Choice: of(0), Plan: set(0, 100_00, solver.Optimal)},
		{Choice: of(1), Plan: set(1, 120_00, solver.Stopped), More: 20_00, Least: 7_00},
		{Choice: of(2), Plan: &plan.Plan{Of: st, Status: solver.Stopped}, Least: 9_00},
	}}
	text := strings.Join(strings.Fields(Why(w)), " ")
	for _, want := range []string{"not proven to be the least, which is 7.00 more at least",
		"no set with it found; the cheapest is: - three, as it is: 9.00 more at least"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %q", want, text)
		}
	}
	if strings.Contains(text, "no set with it meets") {
		t.Errorf("what was not asked is called impossible: %q", text)
	}
	w.Alternatives[1].Least = 0
	if text = strings.Join(strings.Fields(Why(w)), " "); !strings.Contains(text, "as much as planned or more") ||
		strings.Contains(text, " 0.00") {
		t.Errorf("of a set that may cost no more than the plan: %q", text)
	}
	w.Alternatives[1].Least = 7_00
	if rows := WhyRows(w); !strings.Contains(rows[1][1], "7.00 more at least") ||
		rows[2][1] != "not asked to the end: 9.00 more at least" {
		t.Errorf("on the page: %q", rows)
	}
	doc, err := WhyJSON(w)
	n, least := strings.Count(doc, `"proven": false`), strings.Contains(doc, `"more_at_least_cents": 900`)
	if err != nil || n != 2 || !least {
		t.Errorf("%d of 2 not proven (%v): %s", n, err, doc)
	}
}
