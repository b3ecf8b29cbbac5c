package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// forced is the advised set, and every choice of the first slot forced.
func forced(t *testing.T, st *catalog.State, set solver.Settings) (*program.Explorer, *Why) {
	t.Helper()
	ctx, w := context.Background(), &Why{}
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true, Keep: []int{0}}, set)
	if err != nil {
		t.Fatal(err)
	}
	if w.Advised, err = e.Ask(ctx, solver.Change{}); err != nil || !w.Advised.Has {
		t.Fatal(w.Advised.Has, err)
	}
	if err := w.askAll(ctx, e); err != nil {
		t.Fatal(err)
	}
	return e, w
}

// TestWhyBrackets: where searches are cut off, and where some were never begun, the cheapest
// set with every choice lies between the two sums that are said, and none is missing.
func TestWhyBrackets(t *testing.T) {
	open, never := 0, 0
	bracketed(t, 8, 4, 100, func(seed uint64, st *catalog.State, _ *plan.Plan) {
		e, exact := forced(t, st, solver.Settings{})
		_, cut := forced(t, st, solver.Settings{NodeLimit: 1})
		if exact.Stopped || len(cut.Alternatives) != len(exact.Alternatives) {
			t.Fatalf("seed %d: %d choices of %d", seed, len(cut.Alternatives), len(exact.Alternatives))
		}
		inExact := func(c *plan.Choice) *Alternative {
			return &exact.Alternatives[slices.IndexFunc(exact.Alternatives,
				func(a Alternative) bool { return plan.SameChoice(a.Choice, c) })]
		}
		judge := func(w *Why, way *Alternative) {
			is := inExact(way.Choice)
			if !is.Proven() || !is.Plan.Has && (way.Plan.Has || way.Proven() && way.Plan.Status != solver.Infeasible) {
				t.Errorf("seed %d: %v of a choice that there is no set with", seed, way.Plan.Status)
			}
			if !is.Plan.Has {
				return
			}
			if least := w.Advised.Weighed() + way.Least; least > is.Plan.Weighed() ||
				way.Plan.Has && way.Plan.Weighed() < is.Plan.Weighed() || way.Plan.Status == solver.Infeasible {
				t.Errorf("seed %d: %d at least, %d in hand (%v), by the whole search %d", seed, least, way.Plan.Weighed(),
					way.Plan.Status, is.Plan.Weighed())
			}
		}
		for i := range cut.Alternatives {
			way := &cut.Alternatives[i]
			if judge(cut, way); !way.Proven() {
				open++
			}
			if !way.Proven() && !cut.Stopped {
				t.Errorf("seed %d: whole, and a choice is not proven", seed)
			}
		}
		floors := exact.floors(context.Background(), e)
		for _, k := range planned(e.Program, 0) {
			way := exact.alternative(st, &e.Choices[0][k], nil, floors[k])
			if judge(exact, &way); !way.Proven() && way.Least > 0 {
				never++
			}
		}
	})
	if open < 20 || never < 20 {
		t.Errorf("%d choices between two sums, %d of which something is known unasked: too few to tell", open, never)
	}
}
