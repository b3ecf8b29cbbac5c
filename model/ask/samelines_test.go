package ask

import (
	"slices"
	"testing"

	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// TestSameLines: two finds are one question only if their columns are the same in all that
// the program asks of a column: which of equally cheap sets is shown, and what matches what,
// too.
func TestSameLines(t *testing.T) {
	column := solver.Column{Cost: 100, Tie: [2]int64{1, 2}, Terms: []solver.Term{{Row: 0, Coef: 3}}, Needs: []int{0},
		Loads: []solver.Load{{Switch: 0, Amount: 5}}}
	fresh := func() *hunt {
		p := &solver.Problem{
			Groups: []solver.Group{
				{Columns: []solver.Column{{Cost: 7}, column, column}}, {Columns: []solver.Column{{}}},
			},
			WithinTolerance: []solver.WithinTolerance{
				{Groups: []int{0, 1}, Values: [][]int64{{1, 9000, 9000}, {0}}}, {Groups: []int{1}, Values: [][]int64{{4}}},
			},
			AllEqual: []solver.AllEqual{{Groups: []int{0, 1}, Labels: [][]int{{0, 2, 2}, {0}}}},
		}
		return &hunt{first: 1, finds: []Find{{}, {}}, e: &program.Explorer{Program: &program.Program{Problem: p,
			Pairs:   [][]program.Pair{{{K: 0}, {K: 1}, {K: 2}}, {{K: 0}}},
			Choices: [][]plan.Choice{{{Piece: 0}, {Piece: 1}, {Piece: 2}}, {{Piece: 0}}}}}}
	}
	if h := fresh(); !h.sameLines(0, 1) || len(h.equalFinds([]int{0, 1})) != 1 {
		t.Error("the same columns are told apart")
	}
	for name, change := range map[string]func(p *solver.Problem, c *solver.Column){
		"cost":       func(_ *solver.Problem, c *solver.Column) { c.Cost++ },
		"first tie":  func(_ *solver.Problem, c *solver.Column) { c.Tie[0]++ },
		"second tie": func(_ *solver.Problem, c *solver.Column) { c.Tie[1]++ },
		"terms":      func(_ *solver.Problem, c *solver.Column) { c.Terms = []solver.Term{{Row: 0, Coef: 4}} },
		"needs":      func(_ *solver.Problem, c *solver.Column) { c.Needs = nil },
		"loads":      func(_ *solver.Problem, c *solver.Column) { c.Loads = []solver.Load{{Switch: 0, Amount: 6}} },
		"near":       func(p *solver.Problem, _ *solver.Column) { p.WithinTolerance[0].Values[0][2]++ },
		"label":      func(p *solver.Problem, _ *solver.Column) { p.AllEqual[0].Labels[0][2]++ },
		"another slot": func(p *solver.Problem, _ *solver.Column) {
			p.Groups = slices.Clone(p.Groups[:0]) // there are no columns to compare
		},
	} {
		h := fresh()
		change(h.e.Problem, &h.e.Problem.Groups[0].Columns[2])
		if h.sameLines(0, 1) || h.sameLines(1, 0) {
			t.Errorf("columns of another %s are taken for the same", name)
		}
	}
}
