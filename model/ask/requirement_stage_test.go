package ask

import (
	"context"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/solver"
)

// TestConflictOfStages: where what hangs or is at a plater's leaves nothing that fits,
// that is said, and that it can be taken down or back; what is plated can't.
func TestConflictOfStages(t *testing.T) {
	tests := []struct {
		name  string
		state func(st *catalog.State)
		kinds []string
		says  []string // of the clash and of what may be given up
	}{
		{"a piece hangs that is not good enough", func(st *catalog.State) {
			st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(85_00))
			st.Pieces[jobs.Other].Stage, st.Pieces[jobs.Other].HungIn = catalog.StageHung, jobs.Left
		}, []string{"slot", "hung"}, []string{"that other stays where it hangs, in rim-left",
			"if other is taken down from rim-left it fits", "with grade 70 instead of 85 for rim-left it fits"}},
		{"another piece is locked where one hangs", func(st *catalog.State) {
			st.Pieces[jobs.Other].Stage, st.Pieces[jobs.Other].HungIn = catalog.StageHung, jobs.Left
			st.Locks = []catalog.Lock{{Filter: catalog.Filter{Slot: jobs.Left, Piece: jobs.Bare, Plater: catalog.None}}}
		}, []string{"lock", "hung"}, []string{"if other is taken down from rim-left it fits",
			"without the lock on rim-left it fits"}},
		{"a piece was sent for too little", func(st *catalog.State) {
			st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(85_00))
			st.Pieces = st.Pieces[:jobs.Hazy+1]
			st.Pieces[jobs.Bare].Fits, st.Pieces[jobs.Hazy].Fits = []int{jobs.Left}, []int{jobs.Right}
			jobs.SentTo(&st.Pieces[jobs.Bare], jobs.North, catalog.StageStripped)
			st.Pieces[jobs.Bare].Sent.Level, st.Pieces[jobs.Bare].Sent.Grade = "driver",
				jobs.Given(catalog.Centi(75_00))
		}, []string{"slot", "sent"}, []string{"that north goes on with bare",
			"if bare is taken back from north it fits (8.00 for stripping comes on top)",
			"with grade 75 instead of 85 for rim-left it fits"}},
		{"a piece was plated for too little", func(st *catalog.State) {
			st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(90_00))
			st.Pieces = st.Pieces[:jobs.Hazy+1]
			st.Pieces[jobs.Bare].Fits, st.Pieces[jobs.Hazy].Fits = []int{jobs.Left}, []int{jobs.Right}
			jobs.SentTo(&st.Pieces[jobs.Bare], jobs.North, catalog.StagePlated)
			st.Pieces[jobs.Bare].Sent.Grade = jobs.Given(catalog.Centi(75_00))
		}, []string{"slot"}, []string{"with grade 75 instead of 90"}},
		{"what is locked is broken", func(st *catalog.State) {
			st.Pieces[jobs.Other].Stage = catalog.StageBroken
			st.Locks = []catalog.Lock{{Filter: catalog.Filter{Slot: jobs.Left, Piece: jobs.Other,
				Plater: catalog.None}}}
		}, []string{"lock"}, []string{"the lock on rim-left; other is broken"}},
		{"what is locked is on another job", func(st *catalog.State) {
			st.Pieces[jobs.Other].Elsewhere = true
			st.Locks = []catalog.Lock{{Filter: catalog.Filter{Slot: jobs.Left, Piece: jobs.Other,
				Plater: catalog.None}}}
		}, []string{"lock"}, []string{"the lock on rim-left; other is in use on another job"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := jobs.Tiny()
			tt.state(st)
			c, err := Explain(context.Background(), st, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			solvedAgain(t, tt.name, st, c)
			var kinds, words []string
			for _, r := range c.Conflict {
				kinds, words = append(kinds, r.Kind), append(words, r.Words)
			}
			for _, g := range c.Relaxations {
				if g.Plan != nil && g.Plan.Has {
					words = append(words, g.Words)
				}
			}
			slices.Sort(kinds)
			slices.Sort(tt.kinds)
			if !slices.Equal(kinds, tt.kinds) || !c.Minimal {
				t.Errorf("clash of %q, minimal %v, want %q", kinds, c.Minimal, tt.kinds)
			}
			for _, want := range tt.says {
				if !slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, want) }) {
					t.Errorf("not said: %q; said %q", want, words)
				}
			}
		})
	}
}

// TestUnfilledWhereOneHangs: the reason names what hangs there.
func TestUnfilledWhereOneHangs(t *testing.T) {
	st := jobs.Tiny()
	st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(85_00))
	st.Pieces[jobs.Other].Stage, st.Pieces[jobs.Other].HungIn = catalog.StageHung, jobs.Left
	plan := solved.Cheapest(t, st)
	want := "rim-left: other hangs there; it takes grade 85 or better; it reaches grade 70 (grade 70 is below the " +
		"floor of 85)"
	if len(plan.Reasons) != 1 || plan.Reasons[0] != want {
		t.Errorf("reasons %q, want %q", plan.Reasons, want)
	}
}
