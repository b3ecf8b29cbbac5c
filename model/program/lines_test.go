package program

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// lineNames gives the lines of a slot as text, choices named by piece and plater.
func lineNames(st *catalog.State, slot int) string {
	b := newSlotChoices(st, slot, choice.Choices(st)[slot], nil, newSteady(st))
	var names []string
	for _, p := range b.lines() {
		name := func(i int32) string {
			if i == catalog.None {
				return "-"
			}
			return fmt.Sprintf("%s.%d", st.Pieces[b.choices[i].Piece].ID, b.choices[i].Days)
		}
		names = append(names, name(p.K)+"/"+name(p.F))
	}
	return strings.Join(names, " ")
}

// SlimState has one slot and three pieces: a (plated in 40 days, can fail), b
// and c (as they are, there after 5 days; c may not come).
func SlimState() *catalog.State {
	st := jobs.Tiny()
	st.Slots = st.Slots[:1]
	st.Slots[jobs.Left].Area.Set = false
	a, b, c := jobs.TinyPiece("a"), jobs.TinyPiece("b"), jobs.TinyPiece("c")
	a.Quotes = []catalog.Quote{{Plater: jobs.South, Cost: 50_00, Grade: jobs.Given(catalog.Centi(90_00)),
		Breakage: jobs.Given(catalog.Micro(100_000))}}
	b.Grade, b.Days = jobs.Given(catalog.Centi(80_00)), jobs.Given(5)
	c.Grade, c.Days, c.Chance = jobs.Given(catalog.Centi(70_00)), jobs.Given(5), 600_000
	st.Pieces = []catalog.Piece{a, b, c}
	for i := range st.Pieces {
		st.Pieces[i].Fits = []int{jobs.Left}
	}
	return st
}

func TestLines(t *testing.T) {
	tests := []struct {
		name   string
		change func(st *catalog.State)
		want   string
	}{
		{"all", func(*catalog.State) {}, "a.40/- a.40/b.5 a.40/c.5 b.5/- c.5/- c.5/a.40 c.5/b.5"},
		// 40 + 5 <= 45, and a rescue takes 30 days: 5 + 30 is in time, 40 + 30 not
		{"days", func(st *catalog.State) { st.Job.WithinDays = jobs.Given(45) },
			"a.40/b.5 a.40/c.5 b.5/- c.5/- c.5/a.40 c.5/b.5"},
		{"fewer days", func(st *catalog.State) { st.Job.WithinDays = jobs.Given(44) }, "b.5/- c.5/- c.5/b.5"},
		// b can't fail: no time for a rescue is needed
		{"no days", func(st *catalog.State) { st.Job.WithinDays = jobs.Given(5) }, "b.5/-"},
		// c never comes: not alone, and not in reserve of what is certain to fail
		{"certain", func(st *catalog.State) { st.Pieces[2].Chance = 0 },
			"a.40/- a.40/b.5 a.40/c.5 b.5/- c.5/a.40 c.5/b.5"},
		{"both certain", func(st *catalog.State) {
			st.Pieces[2].Chance = 0
			st.Pieces[0].Quotes[0].Breakage.V = catalog.One
		}, "a.40/b.5 b.5/- c.5/b.5"},
		{"fallback floor", func(st *catalog.State) {
			st.Slots[jobs.Left].Target = catalog.Target{Floor: jobs.Given(catalog.Centi(85_00)),
				FallbackFloor: jobs.Given(catalog.Centi(75_00))}
		}, "a.40/- a.40/b.5"},
		{"floor for both",
			func(st *catalog.State) { st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(85_00)) }, "a.40/-"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := SlimState()
			tt.change(st)
			if got := lineNames(st, jobs.Left); got != tt.want {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}

// -1e6 ln(1 - p): for 0.1 x 1 it is 105360.5, for 0.1 x 0.4 = 0.04 it is
// 40821.99, for a chance of 1e-12 it is nothing.
func TestLogLoss(t *testing.T) {
	for _, tt := range []struct {
		k, f catalog.Micro
		want int64
	}{{100_000, catalog.One, 105_361}, {100_000, 400_000, 40_822}, {1, 1, 0}, {0, catalog.One, 0},
		{999_999, catalog.One, 13_815_511}} {
		if got := choice.LogLoss(choice.BothFail(&plan.Choice{Fails: tt.k}, &plan.Choice{Fails: tt.f})); got !=
			tt.want {
			t.Errorf("p %d x %d: %d, want %d", tt.k, tt.f, got, tt.want)
		}
	}
	if got := choice.BothFail(&plan.Choice{Fails: 7}, nil); got != 7_000_000 {
		t.Errorf("without a fallback: %d", got)
	}
}

// completion 0.9 of two slots: floor(105360.51) + 2.
func TestLimits(t *testing.T) {
	st := jobs.Tiny()
	if got := CompletionLimit(st, 900_000); got != 105_362 {
		t.Errorf("completion 0.9: %d", got)
	}
	if CompletionLimit(st, 0) != NoLimit || CompletionLimit(st, catalog.One) != 2 {
		t.Errorf("completion 0: %d, 1: %d", CompletionLimit(st, 0), CompletionLimit(st, catalog.One))
	}
	// mean 82.5 of weights 3 and 1
	if got := MeanLimit(st, 82_50); got != 82_50*400 {
		t.Errorf("mean: %d", got)
	}
	if math.Abs(meanGrade(st, []plan.Line{{Slot: jobs.Left, Choice: &plan.Choice{Grade: 90_00}},
		{Slot: jobs.Right, Choice: &plan.Choice{Grade: 70_00}}})-85) > 1e-9 {
		t.Error("weighted mean of 90 x 3 and 70 x 1 is not 85")
	}
}
