package plan_test

import (
	"testing"

	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestBagInSeveralSlots: of a bag that fills both slots, what fills one of them all along was not
// taken from there for the other, nor did what the other had go there: what happened to it is
// the reason, and is told.
func TestBagInSeveralSlots(t *testing.T) {
	both := []plan.Line{{Slot: jobs.Left, Choice: hangs(jobs.Left, jobs.Bagged)},
		{Slot: jobs.Right, Choice: hangs(jobs.Right, jobs.Bagged)}}
	one := []plan.Line{both[0], {Slot: jobs.Right, Choice: hangs(jobs.Right, jobs.Other)}}
	swapped := []plan.Line{{Slot: jobs.Left, Choice: hangs(jobs.Left, jobs.Other)}, both[1]}
	tests := []struct {
		name     string
		was, now []plan.Line
		happened string
		want     []string
	}{
		{"one more of the bag", one, both, "broke piece.shop:other", []string{"rim-right changed 1"}},
		{"one of the bag less", both, one, "broke piece.bagged", []string{"rim-right changed 1"}},
		{"the bag goes where the other was", one, swapped, "graded piece.bagged",
			[]string{"rim-left from rim-right to rim-right others", "rim-right from rim-left to rim-left others"}},
	}
	for _, tt := range tests {
		st := shiftState()
		was := plan.KeptLines(&plan.Plan{Of: st, Lines: tt.was})
		st.Record = happened(tt.happened)
		changes := plan.PlanChanges(was, 0, &plan.Plan{Of: st, Lines: tt.now})
		if len(changes) != len(tt.want) {
			t.Fatalf("%s: %d changes, want %d", tt.name, len(changes), len(tt.want))
		}
		for i := range changes {
			if got := shiftWords(&changes[i]); got != tt.want[i] {
				t.Errorf("%s: got %q, want %q", tt.name, got, tt.want[i])
			}
		}
	}
}
