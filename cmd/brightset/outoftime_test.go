package main

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"
	"brightset/solver"
)

// TestOutOfTime: a command whose time is up before anything was found says so, claims no
// answer and writes no file.
func TestOutOfTime(t *testing.T) {
	dir := t.TempDir()
	for _, args := range [][]string{
		{"plan"}, {"plan", "--full"}, {"plan", "--full", "--best"}, {"plan", "--others", "2"},
		{"plan", "--one-for-two"},
		{"why", "grille"}, {"frontier"}, {"frontier", "--all"}, {"hunt"}, {"risk"}, {"risk", "--find-out"},
		{"orders", "--out", filepath.Join(dir, "orders")}, {"report", "--out", filepath.Join(dir, "report.html")},
	} {
		code, out, errs := brightset(append(args, "--time-limit", "1ns", "testdata/demo")...)
		if code != exitFailed || out != "" || !strings.Contains(errs, "stopped (time limit) before any plan was found") {
			t.Errorf("%v: exit code %d\n%s%s", args, code, out, errs)
		}
	}
	if files, _ := filepath.Glob(filepath.Join(dir, "*")); len(files) > 0 {
		t.Errorf("written all the same: %v", files)
	}
}

// TestStoppedByTheUser: who broke a search off before any plan was found is not told to give
// it longer.
func TestStoppedByTheUser(t *testing.T) {
	was := interruptible
	ended, stop := context.WithCancel(context.Background())
	stop()
	interruptible = func() (context.Context, func()) { return ended, func() {} }
	t.Cleanup(func() { interruptible = was })
	for _, args := range [][]string{{"plan", "testdata/demo"},
		{"plan", "testdata/together/solo.toml", "testdata/together/racer.toml"}} {
		code, out, errs := brightset(args...)
		if code != exitInterrupted || out != "" || strings.Contains(errs, "longer") || !strings.Contains(errs,
			"stopped by you") {
			t.Error(args, code, out, errs)
		}
	}
}

func planned(t *testing.T) (*catalog.State, *plan.Plan) {
	t.Helper()
	st, err := load(&call{args: []string{"testdata/demo"}})
	if err != nil {
		t.Fatal(err)
	}
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil || !plan.Has {
		t.Fatal(err)
	}
	return st, plan
}

// TestPapersCutShort: papers that were cut short say so in text, JSON and on the page; an
// order asks for a call where the price at which to stop isn't known; and there is no
// quote without its limits.
func TestPapersCutShort(t *testing.T) {
	st, plan := planned(t)
	ended, stop := context.WithCancel(context.Background())
	stop()
	p := &report.Papers{Plan: plan, Hunted: &ask.Hunted{Plan: plan}}
	var err error
	if p.Stops, p.StopsWhole, err = ask.StopPrices(ended, plan, solver.Settings{}); err != nil {
		t.Fatal(err)
	}
	quoteTo(p, setAside(context.Background(), plan))
	if p.StopsWhole || p.Sums != nil {
		t.Fatalf("prices at which to stop are whole: %v; a quote: %v", p.StopsWhole, p.Sums != nil)
	}
	text, err := report.WrittenJSON(p, nil, p.Early())
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Early []string `json:"stopped_early"`
	}
	if err = json.Unmarshal([]byte(text), &doc); err != nil || len(doc.Early) != 4 {
		t.Errorf("JSON: %v, %v", doc.Early, err)
	}
	if text := report.Written(p, nil); !strings.Contains(text, "Stopped early") {
		t.Error(text)
	}
	calls, hunts := 0, 0
	for _, sheet := range p.Pages() {
		html, err := sheet.HTML()
		if err != nil {
			t.Fatal(err)
		}
		calls += strings.Count(string(html), "call with the price before you go on")
		if sheet.Name == "hunt" {
			hunts += strings.Count(string(html), "Stopped early")
		}
	}
	open := 0
	for i := range plan.Lines {
		if c := plan.Lines[i].Choice; c.InLot() && ask.PriceOpen(st, c) {
			open++
		}
	}
	if p.Unfitted = "in a hurry"; calls > open || open == 0 || hunts != 1 {
		t.Errorf("%d orders ask for a call, %d prices are open; the hunt list says %d times that it is cut short", calls,
			open, hunts)
	}
}

// TestStripCutShort: prices at which to stop that are not of every piece are said to be so.
func TestStripCutShort(t *testing.T) {
	_, plan := planned(t)
	all, whole, err := ask.StopPrices(context.Background(), plan, solver.Settings{})
	if err != nil || !whole || len(all) < 2 {
		t.Fatal(len(all), whole, err)
	}
	for _, strip := range []*report.Strip{{}, {Stop: all[1:]}, {Stop: all, Whole: true}} {
		beside := &report.Beside{Strip: strip}
		if got := strings.Contains(report.Plan(plan, beside), "Stopped early"); got == strip.Whole {
			t.Errorf("%d of %d prices, said to be cut short: %v", len(strip.Stop), len(all), got)
		}
		text, err := report.PlanJSON(plan, beside)
		var doc struct {
			Whole *bool `json:"strip_whole"`
		}
		if err == nil {
			err = json.Unmarshal([]byte(text), &doc)
		}
		if err != nil || doc.Whole == nil || *doc.Whole != strip.Whole {
			t.Errorf("%d of %d prices, whole in JSON: %v, %v", len(strip.Stop), len(all), doc.Whole, err)
		}
	}
}

// TestRiskCutShort: of a simulation with fewer runs than it should have, or none, that is
// said, and no figure is made up.
func TestRiskCutShort(t *testing.T) {
	_, plan := planned(t)
	ended, stop := context.WithCancel(context.Background())
	stop()
	none, few := risk.Simulate(ended, plan, riskRuns, riskSeed), risk.Simulate(context.Background(), plan, 100, riskSeed)
	few.Asked = riskRuns
	r := risk.RiskOf(ended, plan)
	for _, s := range []*risk.Simulation{none, few} {
		if text := report.Risk(r, s, nil, true); !strings.Contains(text, "Stopped early") {
			t.Error(text)
		}
		text, err := report.RiskJSON(r, s, nil)
		var doc struct {
			Runs        int
			Whole       bool `json:"runs_whole"`
			Coarse      bool
			Contingency *int64 `json:"contingency_cents"`
		}
		if err == nil {
			err = json.Unmarshal([]byte(text), &doc)
		}
		if err != nil || doc.Whole || !doc.Coarse || doc.Runs != s.Runs || (doc.Contingency == nil) != (s.Runs == 0) {
			t.Errorf("%d runs: %+v, %v", s.Runs, doc, err)
		}
	}
}
