package main

import (
	"encoding/json"
	"strings"
	"testing"

	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/seeded"
)

// TestStopPricesOfAnySize: the prices at which to stop stand beside the plan of a large set too,
// unasked.
func TestStopPricesOfAnySize(t *testing.T) {
	f, _ := seeded.Named("car-30")
	f.Slots, f.Pieces, f.Completion, f.Budget, f.Mean = 36, 2, 0, 0, 0
	dir := t.TempDir()
	if err := seeded.WriteFiles(seeded.Job(f, 1), dir); err != nil {
		t.Fatal(err)
	}
	code, out, errs := brightset("plan", "--json", "--time-limit", "1m", dir)
	var doc struct {
		Whole *bool `json:"strip_whole"`
		Stop  []any `json:"stop_prices"`
	}
	if err := json.Unmarshal([]byte(out), &doc); code != 0 || err != nil || doc.Whole == nil || len(doc.Stop) < 5 {
		t.Errorf("exit %d (%v), %d prices: %s", code, err, len(doc.Stop), errs)
	}
}

// TestStoppedByBudget: where the budget alone sets a price, it is named.
func TestStoppedByBudget(t *testing.T) {
	_, plan := planned(t)
	stop := ask.StopPrice{Slot: 0, Choice: plan.Lines[0].Choice, Highest: 91_00, Most: 91_00}
	for i := range plan.Lines {
		if c := plan.Lines[i].Choice; c.Plated() {
			stop.Slot, stop.Choice = i, c
		}
	}
	for _, by := range []bool{false, true} {
		stop.ByBudget = by
		text := report.Plan(plan, &report.Beside{Strip: &report.Strip{Stop: []ask.StopPrice{stop}, Whole: true}})
		if !strings.Contains(text, " 91.00\n") || strings.Contains(text, "budget 91.00") != by ||
			strings.Contains(text, "Where the budget is named") != by {
			t.Errorf("by the budget %v: %s", by, text)
		}
	}
}
