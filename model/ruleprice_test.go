package model

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// TestRulePricesByHand lifts the demands on the set by limits instead, in one program
// that knows nothing of requirements.
func TestRulePricesByHand(t *testing.T) {
	looked := 0
	for seed := range int64(150) {
		st := randomState(seed, 3, randomOptions{})
		plan := cheapest(t, st)
		if !plan.Has {
			continue
		}
		all, whole, err := RulePrices(context.Background(), st, 0, plan, solver.Settings{})
		if err != nil || !whole {
			t.Fatal(whole, err)
		}
		for kind, limit := range map[string]solver.LimitTo{
			"mean": {Row: RowMean, Limit: -NoLimit}, "completion": {Row: RowCompletion, Limit: NoLimit}, "budget": {Row: RowBudget, Limit: NoLimit},
		} {
			res, err := solveOnce(context.Background(), Compile(st, Options{}).Problem, solver.Change{Limits: []solver.LimitTo{limit}}, solver.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			told := catalog.Cents(0)
			for _, p := range all {
				if p.Requirement.Kind == kind {
					told = p.Costs
				}
			}
			if want := plan.Expected - catalog.Cents(res.Total); told != want {
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
