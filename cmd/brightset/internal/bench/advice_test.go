package bench

import (
	"context"
	"regexp"
	"strings"
	"testing"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/program"
	"brightset/model/risk"
	"brightset/solver"
)

// TestAdviceInTables: what hunt and risk say stands in tables, which a telephone can show, with
// all the figures that the answer in words has, and nothing to be typed.
func TestAdviceInTables(t *testing.T) {
	job := demo(t)
	h, _ := serve(job, "")
	st, err := catalog.Load(job, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	hunted, err := ask.Hunt(ctx, st, nil, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	p, err := program.Solve(ctx, st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	tags, figure := regexp.MustCompile(`<[^>]*>`), regexp.MustCompile(`[0-9]+\.[0-9]+`)
	for path, words := range map[string]string{"/hunt.part": report.Hunt(hunted),
		"/risk.part": report.Risk(risk.RiskOf(ctx, p), risk.Simulate(ctx, p, riskRuns, riskSeed), nil, true)} {
		text := get(h, path).Body.String()
		plain := tags.ReplaceAllString(text, " ")
		if strings.Contains(text, "<pre") || !strings.Contains(text, "<table") || strings.Contains(plain, "brightset ") {
			t.Errorf("%s: no table, or something to be typed: %s", path, text)
		}
		for _, f := range figure.FindAllString(words, -1) {
			if !strings.Contains(plain, f) {
				t.Errorf("%s: %s is not there", path, f)
			}
		}
	}
}
