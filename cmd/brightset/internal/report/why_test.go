package report

import (
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
)

// TestTurnAtOnce: where the least move turns the decision, nobody is told that it turns
// past the value the figure has anyway.
func TestTurnAtOnce(t *testing.T) {
	at := func(f choice.Figure, last int64) []ask.Breakpoint {
		return []ask.Breakpoint{{Figure: f, Now: 90_58, Last: last}}
	}
	for f, says := range map[choice.Figure][2]string{
		choice.FigurePlating: {"until its price after stripping rises at all (now 90.58)",
			"once its price after stripping falls at all (now 90.58)"},
		choice.FigurePrice: {"until its price rises at all (now 90.58)", "once its price falls at all (now 90.58)"},
		choice.FigureBreakage: {"until its chance of breaking rises at all (now 0.9058%)",
			"once its chance of breaking falls at all (now 0.9058%)"},
		choice.FigureGrade: {"until its grade falls at all (now 90.58)", "once its grade rises at all (now 90.58)"},
	} {
		for i, text := range []string{stays("it", at(f, 90_58)), takesOver("it", at(f, 90_58))} {
			if !strings.HasSuffix(text, says[i]) {
				t.Errorf("%s: %q, not %q", f, text, says[i])
			}
		}
	}
	if text := stays("it", at(choice.FigureBreakage, 90_59)); !strings.Contains(text, "passes 0.9059% (now 0.9058%)") {
		t.Errorf("a turn a millionth further on is told as %q", text)
	}
	each := []ask.Breakpoint{{Figure: choice.FigurePlating, Now: 10_00, Last: 12_34, Each: true}}
	if text := stays("it", each); !strings.Contains(text, "passes 12.34 each (now 10.00 each)") {
		t.Errorf("the price of one of several is told as %q", text)
	}
}

// TestUnsettled: of a figure whose turn isn't settled it is told how far nothing turns, and
// no turn.
func TestUnsettled(t *testing.T) {
	st := &catalog.State{Pieces: []catalog.Piece{{ID: "crank", Name: "crank"}}}
	c := &plan.Choice{Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	for says, p := range map[string]ask.Breakpoint{
		"nothing turns until its price is 12.34 (now 10.00); whether it does further on is not settled": {
			Now: 10_00, Last: 12_34, Most: 900_00},
		"nothing turns until its price is 12.34 (now 10.00); at 15.01 the decision has turned; where between " +
			"is not settled": {
			Now: 10_00, Last: 12_34, Most: 15_00, Turns: true},
		"nothing turns until its price is 8.00 (now 10.00); at 4.99 the decision has turned; where between is " +
			"not settled: others cost about the same": {Now: 10_00, Last: 8_00, Most: 5_00, Turns: true, Close: true},
		"where another price (now 10.00) turns the decision is not settled: others cost about the same": {
			Now: 10_00, Last: 10_00, Most: 900_00, Close: true},
		"with its price at 4.99 (now 10.00) the decision has turned; where before that is not settled": {
			Now: 10_00, Last: 10_00, Most: 5_00, Turns: true},
	} {
		p.Choice, p.Figure = c, choice.FigurePrice
		w := &ask.Why{Advised: &plan.Plan{Of: st}, Unsettled: []ask.Breakpoint{p}}
		if all := points(w); len(all) != 1 || !strings.HasSuffix(all[0], ": "+says) {
			t.Errorf("told as %q, not %q", all, says)
		}
	}
}

// TestOnlyRunnerUpTurns: where only a turn of the runner-up is known it isn't told as the choice.
func TestOnlyRunnerUpTurns(t *testing.T) {
	st := &catalog.State{Pieces: []catalog.Piece{{ID: "crank", Name: "crank"}, {ID: "bumper", Name: "bumper"}}}
	as := func(piece int) *plan.Choice {
		return &plan.Choice{Piece: piece, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	}
	w := &ask.Why{
		Advised: &plan.Plan{Of: st, Has: true, Lines: []plan.Line{{Choice: as(0)}}},
		Points: []ask.Breakpoint{{Choice: as(1), Figure: choice.FigurePrice, Now: 10_00, Last: 8_00, Most: 8_00,
			Turns: true}},
	}
	if all := points(w); len(all) != 1 || !strings.Contains(all[0], "bumper, as it is becomes the choice once") {
		t.Errorf("told as %q", all)
	}
}
