package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// TestRulePricesByHand lifts the demands on the set by limits instead, in one program
// that knows nothing of requirements.
func TestRulePricesByHand(t *testing.T) {
	looked := 0
	for seed := range int64(150) {
		st := jobs.Random(seed, 3, jobs.Options{})
		plan := solved.Cheapest(t, st)
		if !plan.Has {
			continue
		}
		all, whole, err := pricesOfRules(context.Background(), t, st, plan, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		for kind, limit := range map[string]solver.LimitTo{
			"mean": {Row: program.RowMean, Limit: -program.NoLimit}, "completion": {Row: program.RowCompletion,
				Limit: program.NoLimit}, "budget": {Row: program.RowBudget, Limit: program.NoLimit},
		} {
			res, err := program.SolveOnce(context.Background(), program.Compile(st, program.Options{}).Problem,
				solver.Change{Limits: []solver.LimitTo{limit}}, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			told := catalog.Cents(0)
			for _, p := range all {
				if p.Requirement.Kind == kind {
					told = p.Costs + p.Keeps
				}
			}
			if want := plan.Weighed() - catalog.Cents(res.Total); told != want {
				t.Errorf("seed %d: %s costs %d, by hand %d", seed, kind, told, want)
			}
			if told > 0 {
				looked++
			}
		}
	}
	if looked < 10 {
		t.Errorf("only %d demands cost something", looked)
	}
}

// pricesOfRules are those that have a say in the first slot.
func pricesOfRules(ctx context.Context, t *testing.T, st *catalog.State, pl *plan.Plan,
	set solver.Settings) ([]RulePrice, bool, error) {
	t.Helper()
	e, err := program.NewExplorer(ctx, st, program.Options{FixedLimits: true}, set)
	if err != nil {
		t.Fatal(err)
	}
	return rulePrices(ctx, e, 0, pl)
}
