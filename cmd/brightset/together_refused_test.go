package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/model/joint"
	"brightset/solver"
)

// What several jobs want so that not all can have it is named, alone or together.
func TestTogetherInfeasible(t *testing.T) {
	dir, jobs := threeJobs(t)
	jobs = jobs[:2]
	shop := filepath.Join(dir, "shop.toml")
	for i, job := range jobs {
		writeTo(t, job, `[job]
title = "one of two"
shop = "shop.toml"
[target]
floor = 80
[slot.ring]
part = "ring"
[piece.own]
fits = ["ring"]
kind = "original"
metal = "brass"
grade = `+[]string{"30", "40"}[i]+"\n")
	}
	writeTo(t, shop, `[piece.spare]
fits = ["ring"]
kind = "original"
metal = "brass"
grade = 85
`)
	doc := planJSON(t, exitInfeasible, jobs...)
	if doc.Status != "infeasible" || doc.Expected != nil || !slices.Equal(doc.Short, []string{"spare"}) {
		t.Errorf("%s, expected %v, short of %v", doc.Status, doc.Expected, doc.Short)
	}
	code, out, _ := brightset(append([]string{"plan", "--full"}, jobs...)...)
	if code != exitInfeasible || !strings.Contains(out, "would be enough: spare.") {
		t.Errorf("exit %d: %s", code, out)
	}
	third := filepath.Join(dir, "third.toml") // so that two more are needed
	data, err := os.ReadFile(jobs[0])
	if err != nil {
		t.Fatal(err)
	}
	writeTo(t, third, string(data))
	code, out, _ = brightset("plan", "--full", jobs[0], jobs[1], third)
	if code != exitInfeasible || !strings.Contains(out, "More of any one of these") ||
		strings.Contains(strings.ToLower(out), "one more") {
		t.Errorf("three jobs: exit %d: %s", code, out)
	}
	alter(t, jobs[1], "floor = 80", "floor = 86")
	code, out, errs := brightset(append([]string{"plan", "--full"}, jobs...)...)
	if code != exitInfeasible || strings.Contains(out, "spare") || !strings.Contains(errs, jobs[1]) ||
		strings.Contains(errs, jobs[0]) {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	alter(t, jobs[1], "floor = 86", "floor = 35") // its own will do
	if doc := planJSON(t, exitAnswered, jobs...); *doc.Expected != 0 || doc.uses("spare") != 1 {
		t.Errorf("expected %d, the spare used %d times", *doc.Expected, doc.uses("spare"))
	}
}

// One job by two names is one job; one shop by two names has two journals.
func TestTogetherLinks(t *testing.T) {
	dir, jobs := threeJobs(t)
	link := filepath.Join(dir, "link.toml")
	if err := os.Symlink("solo.toml", link); err != nil {
		t.Skip(err)
	}
	code, _, errs := brightset("plan", jobs[0], link)
	if code != exitUsage || !strings.Contains(errs, `link.toml" is the same job as`) {
		t.Errorf("the job: exit %d, %s", code, errs)
	}
	if err := os.Symlink("shop.toml", filepath.Join(dir, "store.toml")); err != nil {
		t.Fatal(err)
	}
	alter(t, jobs[1], `shop = "shop.toml"`, `shop = "store.toml"`)
	if code, _, errs = brightset("plan", jobs[0], jobs[1]); code != exitUsage || !strings.Contains(errs, "two journals") {
		t.Errorf("the shop: exit %d, %s", code, errs)
	}
	alter(t, jobs[1], `shop = "store.toml"`, `shop = "../`+filepath.Base(dir)+`/shop.toml"`)
	if code, _, errs = brightset("plan", jobs[0], jobs[1]); code != exitAnswered {
		t.Errorf("by another path: exit %d, %s", code, errs)
	}
}

// Mistakes in all files are told in one run, those of the shop once.
func TestTogetherMistakesOnce(t *testing.T) {
	dir, jobs := threeJobs(t)
	alter(t, filepath.Join(dir, "shop.toml"), "hourly = \"48.00\"", "hourli = \"48.00\"")
	alter(t, jobs[0], "floor = 80", "flor = 80")
	alter(t, jobs[2], "floor = 75", "flor = 75")
	for _, args := range [][]string{jobs, append([]string{"--json"}, jobs...)} {
		code, out, errs := brightset(append([]string{"plan"}, args...)...)
		if code != exitMistakes || out != "" {
			t.Errorf("exit %d: %s", code, out)
		}
		for text, n := range map[string]int{`"hourli"`: 1, `"flor"`: 2, "solo.toml:": 1, "racer.toml:": 1,
			"outfit.toml:": 0} {
			if got := strings.Count(errs, text); got != n {
				t.Errorf("%s is there %d times in %s", text, got, errs)
			}
		}
	}
}

// A plan of all jobs is kept by all, or by none if one of them has changed.
func TestTogetherKeep(t *testing.T) {
	dir, jobs := threeJobs(t)
	states, err := loadAll(jobs)
	if err != nil {
		t.Fatal(err)
	}
	joint, err := joint.Solve(context.Background(), states, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	kept := func() (list []string) {
		for _, job := range jobs {
			if st, err := catalog.Load(job, catalog.Options{}); err == nil && st.Kept != nil {
				list = append(list, filepath.Base(job))
			}
		}
		return list
	}
	alter(t, jobs[2], "floor = 75", "floor = 76")
	var errs strings.Builder
	if err = keepAll(&call{err: &errs}, joint); err == nil || !strings.Contains(err.Error(), "racer.toml has changed") ||
		len(kept()) > 0 {
		t.Errorf("changed meanwhile: %v, kept by %v", err, kept())
	}
	alter(t, jobs[2], "floor = 76", "floor = 75")
	if err = keepAll(&call{err: &errs}, joint); err != nil || len(kept()) != len(jobs) {
		t.Errorf("%v, kept by %v", err, kept())
	}
	if _, err := os.Stat(filepath.Join(dir, "shop.journal")); err == nil {
		t.Error("something was recorded of the shop's")
	}
}
