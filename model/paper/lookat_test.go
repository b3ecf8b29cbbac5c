package paper

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestConcernsByHand: each is told above what is asked for and not at it.
func TestConcernsByHand(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 2), Pieces: make([]catalog.Piece, 2),
		Platers: make([]catalog.Plater, 2), Matches: []catalog.Match{{ID: "pair", Slots: []int{0, 1}}}}
	st.Slots[0].Rescue = jobs.Given(catalog.Cents(380_00))
	st.Job.Budget, st.Job.WithinDays = jobs.Given(catalog.Cents(100_00)), jobs.Given(90)
	st.Job.SpentSum = 20_00
	line := func(slot, plater int, fails catalog.Micro) plan.Line {
		return plan.Line{
			Slot:   slot,
			Choice: &plan.Choice{Slot: slot, Piece: slot, Plater: plater, Quote: catalog.None, Plate: 40_00, Fails: fails},
		}
	}
	pl := &plan.Plan{Of: st, Lines: []plan.Line{line(0, 0, 20_000), line(1, 0, 9_999)}}
	kindsOf := func(o Outlook) (all []ConcernKind) {
		for _, c := range Concerns(pl, o) {
			all = append(all, c.Kind)
		}
		return all
	}
	same := func(name string, got []ConcernKind, want ...ConcernKind) {
		t.Helper()
		if len(got) != len(want) {
			t.Errorf("%s: %v, want %v", name, got, want)
			return
		}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%s: %v, want %v", name, got, want)
			}
		}
	}
	same("all within", kindsOf(Outlook{Nine: 100_00, Days: 90, Owner: 120_00}), ConcernIrreplaced, ConcernGuess)
	same("all above", kindsOf(Outlook{Nine: 100_01, Days: 91, Owner: 120_01}),
		ConcernBudget, ConcernOwner, ConcernDate, ConcernIrreplaced, ConcernGuess)
	st.Job.BudgetOn = catalog.OnExpected
	same("on what is expected", kindsOf(Outlook{Nine: 100_01, Days: 90, Owner: 120_01}), ConcernOwner, ConcernIrreplaced,
		ConcernGuess)
	st.Job.BudgetOn = catalog.OnOutlay
	pl.Lines[1].Choice.Plater = 1
	same("two platers", kindsOf(Outlook{}), ConcernPairSplit, ConcernIrreplaced, ConcernGuess)
	pl.Lines[1].Choice.Plater, pl.Lines[1].Choice.Sent = 0, true
	st.Pieces[1].Sent.Lot = "first"
	same("one lot is there already", kindsOf(Outlook{}), ConcernPairSplit, ConcernIrreplaced, ConcernGuess)
	pl.Lines[0].Sharing, pl.Lines[1].Sharing = &plan.Sharing{With: 1, Yields: true}, &plan.Sharing{With: 0}
	same("one spare for two", kindsOf(Outlook{}), ConcernPairSplit, ConcernShared, ConcernIrreplaced, ConcernGuess)
	pl.Lines[0].Sharing, pl.Lines[1].Sharing = nil, nil
	st.Pieces[1].Unpriced = true
	same("no price", kindsOf(Outlook{}), ConcernUnpriced, ConcernPairSplit, ConcernIrreplaced, ConcernGuess)
	st.Pieces[1].Unpriced, st.Pieces[0].Unpriced = false, true
	pl.Lines[1].Fallback, pl.Lines[0].Choice.Piece = &plan.Choice{Slot: 1, Piece: 0}, 1
	if c := Concerns(pl, Outlook{}); c[0].Kind != ConcernUnpriced || len(c[0].Slots) != 1 || c[0].Slots[0] != 1 {
		t.Errorf("a reserve without a price: %+v", c)
	}
	pl.Lines[1].Fallback, pl.Lines[0].Choice.Piece, st.Pieces[0].Unpriced = nil, 0, false
	if c := Concerns(pl, Outlook{})[2]; c.Cents != 40_00 || len(c.Slots) != 1 {
		t.Errorf("guessed: %+v", c)
	}
}
