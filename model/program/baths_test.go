package program

import (
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// A set refinished throughout that comes from two platers says so; from one, or where that
// is not asked, nothing is said.
func TestManyBaths(t *testing.T) {
	for _, tt := range []struct {
		name   string
		redone bool
		second int
		says   string
	}{
		{"two platers", true, jobs.South, "more than one lot (north, south)"},
		{"one plater", true, jobs.North, ""},
		{"not asked", false, jobs.South, ""},
	} {
		st := jobs.Tiny()
		pl := &plan.Plan{Has: true}
		for s, q := range []int{jobs.North, tt.second} {
			st.Slots[s].Target.Redone = jobs.Given(tt.redone)
			pl.Lines = append(pl.Lines, plan.Line{
				Slot:   s,
				Choice: &plan.Choice{Slot: s, Piece: s, Work: catalog.WorkReplate, Plater: q, Level: "show"},
			})
		}
		got := strings.Join(planWarnings(st, pl), "\n")
		if tt.says == "" && got != "" || !strings.Contains(got, tt.says) {
			t.Errorf("%s: %q", tt.name, got)
		}
	}
}
