package main

import (
	"path/filepath"
	"strings"
	"testing"

	"brightset/model/seeded"
)

// TestWithin: one job too is planned to within a share of the cheapest where that is asked for,
// which then is an answer and no breaking off; without, to the whole proof.
func TestWithin(t *testing.T) {
	f, _ := seeded.Named("car-30")
	f.Slots = 20
	job := filepath.Join(t.TempDir(), "job.toml")
	if err := seeded.WriteFiles(seeded.Job(f, 1), filepath.Dir(job)); err != nil {
		t.Fatal(err)
	}
	for want, flags := range map[string][]string{
		"proven to be at most":              {"--within", "10"},
		"the cheapest way on these figures": {"--within", "0"},
		"on these figures, proven":          nil,
	} {
		code, out, errs := brightset(append([]string{"plan", job}, flags...)...)
		if code != exitAnswered || !strings.Contains(out, want) {
			t.Errorf("%v: exit %d, %s%s", flags, code, errs, out)
		}
	}
	for _, flag := range []string{"--best", "--one-for-two"} {
		if code, _, errs := brightset("plan", "--within", "1", flag, job); code != exitUsage ||
			!strings.Contains(errs, "without --best") {
			t.Errorf("with %s: exit %d, %s", flag, code, errs)
		}
	}
	out := filepath.Join(t.TempDir(), "o")
	_, text, errs := brightset("orders", "--within", "10", "--out", out, "--time-limit", "2s", job)
	if !strings.Contains(text, "This plan is proven to be at most") {
		t.Errorf("orders: %s%s", errs, text)
	}
}
