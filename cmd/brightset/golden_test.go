package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "write the golden files anew")

// The day on which the tests take place, and the folder they take place in: the
// top of the project, so that paths in the output are those of the README.
func TestMain(m *testing.M) {
	flag.Parse()
	now = func() time.Time { return time.Date(2030, 12, 1, 9, 0, 0, 0, time.UTC) }
	if err := os.Chdir("../.."); err != nil {
		panic(err)
	}
	settings, err := os.MkdirTemp("", "brightset-settings") // the user's own stay as they are
	if err != nil {
		panic(err)
	}
	os.Setenv("XDG_CONFIG_HOME", settings)
	code := m.Run()
	os.RemoveAll(settings)
	if programBuilt {
		dir, _ := built()
		os.RemoveAll(dir)
	}
	os.Exit(code)
}

// brightset runs the program and gives what it wrote.
func brightset(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(args, strings.NewReader(""), &o, &e)
	return code, o.String(), e.String()
}

// seconds are measured, so they differ from run to run.
var seconds = regexp.MustCompile(`("seconds": )[0-9.e+-]+`)

// TestGolden compares exit code, stdout and stderr of whole commands with
// testdata/golden/NAME. After a change that is meant: go test ./cmd/brightset -update
func TestGolden(t *testing.T) {
	cases := []struct {
		name string
		args []string
	}{
		{"plan", []string{"plan", "testdata/demo"}},
		{"plan-full", []string{"plan", "--full", "testdata/demo"}},
		{"plan-json", []string{"plan", "--json", "testdata/demo/job.toml"}},
		{"plan-best", []string{"plan", "--full", "--best", "testdata/demo"}},
		{"plan-others", []string{"plan", "--others", "3", "testdata/demo"}},
		{"plan-locked", []string{"plan", "--full", "testdata/locked"}},
		{"plan-locked-best", []string{"plan", "--full", "--best", "testdata/locked"}},
		{"plan-locked-others", []string{"plan", "--others", "2", "--differ", "1", "testdata/locked"}},
		{"plan-locked-others-json", []string{"plan", "--others", "1", "--json", "testdata/locked"}},
		{"plan-others-far", []string{"plan", "--others", "2", "--differ", "4", "testdata/locked"}},
		{"plan-others-none", []string{"plan", "--others=-1", "testdata/locked"}},
		{"plan-differ-none", []string{"plan", "--others", "1", "--differ", "0", "testdata/locked"}},
		{"plan-others-best", []string{"plan", "--others", "1", "--best", "testdata/locked"}},
		{"plan-together", []string{"plan", "--full", "testdata/together/solo.toml", "testdata/together/outfit.toml",
			"testdata/together/racer.toml"}},
		{"plan-together-json", []string{"plan", "--json", "testdata/together/solo.toml", "testdata/together/racer.toml"}},
		{"plan-together-best", []string{"plan", "--best", "testdata/together/solo.toml", "testdata/together/racer.toml"}},
		{"plan-together-within", []string{"plan", "--full", "--within", "60", "testdata/together/solo.toml",
			"testdata/together/racer.toml"}},
		{"plan-together-twice", []string{"plan", "testdata/together/solo.toml", "testdata/together/../together/solo.toml"}},
		{"plan-together-no-shop", []string{"plan", "testdata/together/solo.toml", "testdata/cli/too-dear.toml"}},
		{"plan-together-two-shops", []string{"plan", "testdata/together/solo.toml", "testdata/demo"}},
		{"plan-together-nowhere", []string{"plan", "testdata/together/solo.toml", "testdata/nowhere"}},
		{"plan-one-for-two", []string{"plan", "--one-for-two", "testdata/one-for-two"}},
		{"plan-one-for-two-full", []string{"plan", "--full", "--one-for-two", "testdata/one-for-two"}},
		{"plan-one-for-two-json", []string{"plan", "--one-for-two", "--json", "testdata/one-for-two"}},
		{"plan-one-for-two-not", []string{"plan", "--full", "testdata/one-for-two"}},
		{"plan-one-for-two-nothing", []string{"plan", "--one-for-two", "testdata/locked"}},
		{"plan-one-for-two-dear", []string{"plan", "--one-for-two", "testdata/cli/too-dear.toml"}},
		{"plan-one-for-two-keep", []string{"plan", "--one-for-two", "--keep", "testdata/one-for-two"}},
		{"plan-one-for-two-best", []string{"plan", "--one-for-two", "--best", "testdata/one-for-two"}},
		{"plan-one-for-two-others", []string{"plan", "--one-for-two", "--others", "2", "testdata/one-for-two"}},
		{"plan-one-for-two-mps", []string{"plan", "--one-for-two", "--mps", "-", "testdata/one-for-two"}},
		{"check", []string{"check", "testdata/demo"}},
		{"check-full", []string{"check", "--full", "testdata/demo"}},
		{"check-no-taker", []string{"check", "testdata/nothing-fits/no-taker.toml"}},
		{"nothing-fits-no-taker", []string{"plan", "testdata/nothing-fits/no-taker.toml"}},
		{"nothing-fits-no-plater", []string{"plan", "testdata/nothing-fits/no-plater.toml"}},
		{"nothing-fits-no-plater-json", []string{"plan", "--json", "testdata/nothing-fits/no-plater.toml"}},
		{"nothing-fits-no-taker-json", []string{"plan", "--json", "testdata/nothing-fits/no-taker.toml"}},
		{"check-slot", []string{"check", "testdata/demo", "--slot", "grille"}},
		{"check-slot-json", []string{"check", "--json", "--slot=screws", "testdata/demo"}},
		{"check-slot-unknown", []string{"check", "testdata/demo", "--slot", "gril"}},
		{"export-leads", []string{"export", "testdata/demo", "--what", "leads"}},
		{"export-quotes-comma", []string{"export", "testdata/demo", "--what", "quotes", "--decimal-comma"}},
		{"export-unknown", []string{"export", "testdata/demo", "--what", "qoutes"}},
		{"import-bad", []string{"import", "testdata/demo", "testdata/cli/bad.csv"}},
		{"import-nothing", []string{"import"}},
		{"import-over-job", []string{"import", "testdata/demo", "testdata/cli/bad.csv", "--out", "testdata/demo/job.toml"}},
		{"import-no-file", []string{"import", "testdata/demo", "testdata/cli/nowhere.csv"}},
		{"import-delimiter", []string{"import", "testdata/demo", "testdata/cli/bad.csv", "--delimiter", "colon"}},
		{"import-quotes", []string{"import", "testdata/demo", "testdata/cli/bad-quotes.csv"}},
		{"import-findings", []string{"import", "testdata/demo", "testdata/cli/bad-findings.csv", "--what", "findings"}},
		{"completion-bash", []string{"completion", "bash"}},
		{"completion-none", []string{"completion"}},
		{"completion-unknown", []string{"completion", "bsh"}},
		{"help-import", []string{"help", "import"}},
		{"help-export", []string{"help", "export"}},
		{"help", []string{"help"}},
		{"help-plan", []string{"help", "plan"}},
		{"help-check", []string{"check", "--help"}},
		{"help-new", []string{"help", "new"}},
		{"help-unknown", []string{"help", "plam"}},
		{"no-command", nil},
		{"unknown-command", []string{"chekc"}},
		{"unknown-flag", []string{"plan", "--jsn", "testdata/demo"}},
		{"unknown-short-flag", []string{"plan", "-j"}},
		{"flag-without-value", []string{"plan", "--mps"}},
		{"bad-time", []string{"plan", "--time-limit", "soon"}},
		{"negative-time", []string{"plan", "--time-limit=-3s", "testdata/demo"}},
		{"too-many", []string{"check", "testdata/demo", "twice"}},
		{"no-job", []string{"plan", "testdata/nowhere"}},
		{"new-without-folder", []string{"new"}},
		{"mps-over-input", []string{"plan", "testdata/demo", "--mps", "testdata/demo/job.toml"}},
		{"why", []string{"why", "crest", "testdata/demo"}},
		{"why-shared", []string{"why", "mirror-right", "testdata/demo"}},
		{"why-json", []string{"why", "--json", "crest", "testdata/demo"}},
		{"why-instead", []string{"why", "crest", "testdata/demo", "--instead", "crest-1"}},
		{"why-instead-json", []string{"why", "crest", "testdata/demo", "--json", "--instead", "crest-1:repair-replate:pell"}},
		{"why-instead-never", []string{"why", "crest", "testdata/demo", "--instead", "crest-nos"}},
		{"why-instead-typo", []string{"why", "crest", "testdata/demo", "--instead", "crest-11"}},
		{"check-words", []string{"check", "--words", "testdata/cli/keeping.toml"}},
		{"check-words-json", []string{"check", "--words", "--json", "testdata/cli/keeping.toml"}},
		{"why-keeping", []string{"why", "rim", "testdata/cli/keeping.toml"}},
		{"plan-keeping", []string{"plan", "--full", "testdata/cli/keeping.toml"}},
		{"hunt-keeping", []string{"hunt", "testdata/cli/keeping.toml"}},
		{"frontier-keeping", []string{"frontier", "testdata/cli/keeping.toml"}},
		{"why-no-slot", []string{"why", "crst", "testdata/demo"}},
		{"why-nothing", []string{"why"}},
		{"why-too-dear", []string{"why", "knob-left", "testdata/cli/too-dear.toml"}},
		{"hunt", []string{"hunt", "testdata/demo"}},
		{"hunt-json", []string{"hunt", "--json", "--slot", "crest", "testdata/demo"}},
		{"risk", []string{"risk", "testdata/demo"}},
		{"risk-detail", []string{"risk", "--detail", "testdata/demo"}},
		{"risk-find-out", []string{"risk", "--find-out", "--time-limit", "10m", "testdata/demo"}},
		{"learn-nothing", []string{"learn", "testdata/demo"}},
		{"learn-no-jobs", []string{"learn", "testdata/locked/shop.toml"}},
		{"learn-no-file", []string{"learn", "testdata/nowhere.toml"}},
		{"help-record", []string{"help", "record"}},
		{"help-bench", []string{"help", "bench"}},
		{"help-orders", []string{"help", "orders"}},
		{"help-learn", []string{"help", "learn"}},
		{"record-list-nothing", []string{"record", "list", "testdata/demo"}},
		{"record-what", []string{"record"}},
		{"record-unknown", []string{"record", "brok", "crest-2", "testdata/demo"}},
		{"record-needs", []string{"record", "sent", "crest-2", "testdata/demo"}},
		{"record-flag", []string{"record", "broke", "crest-2", "testdata/demo", "--grade", "80"}},
		{"record-day", []string{"record", "broke", "crest-2", "testdata/demo", "--on", "yesterday"}},
		{"record-nothing-to-undo", []string{"record", "undo", "testdata/demo"}},
		{"spec", []string{"check", "--spec", "--current", "4", "--slot", "grille", "testdata/demo"}},
		{"spec-json", []string{"check", "--spec", "--json", "--slot", "grille", "testdata/demo"}},
		{"spec-no-service", []string{"check", "--spec", "testdata/cli/two-of-a-name.toml"}},
		{"spec-metals", []string{"check", "--spec", "testdata/cli/metals.toml"}},
		{"spec-metals-json", []string{"check", "--spec", "--json", "--current", "3", "testdata/cli/metals.toml"}},
		{"spec-current", []string{"check", "--current", "4", "testdata/demo"}},
		{"spec-current-zero", []string{"check", "--spec", "--current", "0", "testdata/demo"}},
		{"bench-port", []string{"bench", "--port", "99999", "testdata/demo"}},
		{"risk-json", []string{"risk", "--json", "testdata/demo"}},
		{"frontier", []string{"frontier", "testdata/demo"}},
		{"frontier-json", []string{"frontier", "--json", "--step", "5", "testdata/demo"}},
		{"frontier-csv", []string{"frontier", "--csv", "testdata/demo"}},
		{"frontier-step", []string{"frontier", "--step", "0", "testdata/demo"}},
		{"frontier-step-nan", []string{"frontier", "--step", "NaN", "testdata/demo"}},
		{"frontier-two", []string{"frontier", "--json", "--csv", "testdata/demo"}},
		{"mistakes", []string{"plan", "testdata/cli/mistakes.toml"}},
		{"too-high", []string{"plan", "testdata/cli/too-high.toml"}},
		{"too-dear", []string{"plan", "testdata/cli/too-dear.toml"}},
		{"too-dear-json", []string{"plan", "--json", "testdata/cli/too-dear.toml"}},
		{"nothing-fits-budget", []string{"plan", "testdata/nothing-fits/budget.toml"}},
		{"nothing-fits-piece", []string{"plan", "testdata/nothing-fits/one-piece.toml"}},
		{"nothing-fits-piece-json", []string{"plan", "--json", "testdata/nothing-fits/one-piece.toml"}},
		{"nothing-fits-lock", []string{"plan", "testdata/nothing-fits/lock.toml"}},
		{"two-of-a-name", []string{"plan", "--full", "testdata/cli/two-of-a-name.toml"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			code, out, errs := shared(c.args...)
			got := fmt.Sprintf("exit %d\n--- stdout\n%s--- stderr\n%s", code, out, errs)
			got = seconds.ReplaceAllString(got, "${1}0")
			sameAsGolden(t, c.name, got)
		})
	}
}

func sameAsGolden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name+".txt")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; if that is meant: go test ./cmd/brightset -update\n%s", path,
			firstDifference(got, string(want)))
	}
}

// firstDifference shows the first line in which two texts differ.
func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return fmt.Sprintf("line %d\n got: %s\nwant: %s", i+1, g[i], w[i])
		}
	}
	return fmt.Sprintf("%d lines instead of %d", len(g), len(w))
}
