package program

import (
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// A planned reproduction that nobody has tried on is named once, and only where the shop
// gives no chance that it doesn't fit.
func TestWarnsOfUntried(t *testing.T) {
	for name, tt := range map[string]struct {
		change func(st *catalog.State, p *catalog.Piece)
		says   bool
	}{
		"untried":     {func(*catalog.State, *catalog.Piece) {}, true},
		"tried":       {func(_ *catalog.State, p *catalog.Piece) { p.Tried = true }, false},
		"an original": {func(_ *catalog.State, p *catalog.Piece) { p.Kind = catalog.Original }, false},
		"a chance": {func(st *catalog.State, _ *catalog.Piece) {
			st.Shop.Misfit = jobs.Given[catalog.Micro](150_000)
		}, false},
		"a chance of 0": {func(st *catalog.State, _ *catalog.Piece) { st.Shop.Misfit = jobs.Given[catalog.Micro](0) }, false},
	} {
		st := jobs.Tiny()
		st.Pieces[jobs.Sold].Kind = catalog.Reproduction
		tt.change(st, &st.Pieces[jobs.Sold])
		pl := &plan.Plan{Has: true, Lines: []plan.Line{
			{
				Slot:   jobs.Left,
				Choice: &plan.Choice{Slot: jobs.Left, Piece: jobs.Sold, Work: catalog.WorkAsIs, Plater: catalog.None},
			},
			{
				Slot:   jobs.Right,
				Choice: &plan.Choice{Slot: jobs.Right, Piece: jobs.Sold, Work: catalog.WorkAsIs, Plater: catalog.None},
			},
		}}
		got := strings.Join(planWarnings(st, pl), "\n")
		if strings.Contains(got, "nobody has tried sold on") != tt.says || !tt.says && got != "" {
			t.Errorf("%s: %q", name, got)
		}
	}
}
