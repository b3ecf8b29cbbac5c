package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestStepsBack: a step back that is enough has its set's sums and fits; one that isn't
// has none, and nothing says that it would fit. What it asks for instead is a number, and
// asked for in the file it leads to the sum that is told.
func TestStepsBack(t *testing.T) {
	atTheBench(t)
	dir := t.TempDir()
	text, err := os.ReadFile("testdata/nothing-fits/budget.toml")
	if err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(dir, "job.toml")
	write := func(text string) {
		if err := os.WriteFile(job, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	type answer struct {
		Expected *int64 `json:"expected_cents"`
		GiveUp   []struct {
			Kind, Words, Instead string
			Fits                 *bool
			Expected             *int64 `json:"expected_cents"`
			New                  *struct {
				Budget *int64   `json:"budget_cents"`
				Mean   *float64 `json:"mean"`
			} `json:"asks_new"`
		} `json:"give_up"`
	}
	plan := func(job string) answer {
		_, doc, errs := brightset("plan", "--json", job)
		var a answer
		if err := json.Unmarshal([]byte(doc), &a); err != nil {
			t.Fatal(err, errs)
		}
		return a
	}
	write(string(text))
	steps := 0
	for _, g := range plan(job).GiveUp {
		now := string(text)
		switch {
		case g.New == nil:
			continue
		case g.New.Budget != nil:
			now = strings.Replace(now, `"60.00"`, `"102.50"`, 1)
			if *g.New.Budget != 10250 {
				t.Errorf("a new budget of %d", *g.New.Budget)
			}
		case g.New.Mean != nil:
			now = strings.Replace(now, "84", "80", 1)
			if *g.New.Mean != 80 {
				t.Errorf("a new mean of %v", *g.New.Mean)
			}
		}
		steps++
		write(now)
		if got := plan(job).Expected; now == string(text) || got == nil || g.Expected == nil || *got != *g.Expected {
			t.Errorf("%s: told %v, asked for that it is %v", g.Instead, g.Expected, got)
		}
	}
	if steps != 2 {
		t.Errorf("%d steps back", steps)
	}
	enough, few := 0, 0
	for _, g := range plan(underWayOn(t, "1450.00")).GiveUp {
		if g.Fits == nil || *g.Fits != (g.Expected != nil) || *g.Fits != (g.Instead != "") {
			t.Errorf("%s: fits %v, costs %v, instead %q", g.Words, g.Fits, g.Expected, g.Instead)
		}
		if g.Expected != nil {
			enough++
		} else {
			few++
		}
	}
	if enough == 0 || few == 0 {
		t.Errorf("%d steps are enough and %d are not: both should be tried", enough, few)
	}
}
