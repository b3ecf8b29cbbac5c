package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"brightset/cmd/brightset/internal/report"
)

// No line of text goes beyond 80 columns, whatever the files hold.
func TestEightyColumns(t *testing.T) {
	texts := [][]string{
		{"help"}, {"help", "new"}, {"help", "check"}, {"help", "plan"}, {"help", "help"}, {"help", "version"},
		{"plan", "testdata/cli/too-high.toml"}, {"plan", "testdata/cli/too-dear.toml"},
	}
	for _, job := range []string{"testdata/demo", "testdata/cli/two-of-a-name.toml"} {
		texts = append(texts, []string{"plan", job}, []string{"plan", "--full", job}, []string{"check", job},
			[]string{"check", "--spec", "--current", "0.0007", job})
	}
	for _, args := range texts {
		_, out, _ := brightset(args...)
		if out == "" {
			t.Errorf("%v: no output", args)
		}
		for i, line := range strings.Split(out, "\n") {
			if w := report.Width(line); w > report.Columns {
				t.Errorf("%v, line %d: %d columns: %s", args, i+1, w, line)
			}
			if strings.ContainsAny(line, "\t\r\x1b") {
				t.Errorf("%v, line %d: control characters: %q", args, i+1, line)
			}
		}
	}
}

// In the JSON document lines and charges add up to the expected total, and the
// outlay likewise.
func TestJSONAddsUp(t *testing.T) {
	for _, job := range []string{"testdata/demo", "testdata/cli/two-of-a-name.toml"} {
		code, out, errs := shared("plan", "--json", job)
		if code != exitAnswered || errs != "" {
			t.Fatalf("%s: exit %d, %s", job, code, errs)
		}
		var doc struct {
			Format   int
			Status   string
			Expected int64 `json:"expected_cents"`
			Bound    int64 `json:"bound_cents"`
			Outlay   int64 `json:"outlay_cents"`
			Lines    []struct {
				Slot     string
				Expected int64 `json:"expected_cents"`
				Outlay   int64 `json:"outlay_cents"`
			}
			Charges []struct{ Cents int64 }
		}
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatal(err)
		}
		if doc.Format != 1 || doc.Status != "optimal" || doc.Bound != doc.Expected || len(doc.Lines) == 0 {
			t.Errorf("%s: format %d, status %q, bound %d of %d, %d lines", job, doc.Format, doc.Status, doc.Bound, doc.Expected,
				len(doc.Lines))
		}
		expected, outlay := int64(0), int64(0)
		for _, l := range doc.Lines {
			expected += l.Expected
			outlay += l.Outlay
		}
		for _, c := range doc.Charges {
			expected += c.Cents
			outlay += c.Cents
		}
		if expected != doc.Expected || outlay != doc.Outlay {
			t.Errorf("%s: adds up to %d and %d, not %d and %d", job, expected, outlay, doc.Expected, doc.Outlay)
		}
	}
}

// The demo is there to show every kind of decision.
func TestDemoShowsEverything(t *testing.T) {
	_, out, _ := shared("plan", "--full", "testdata/demo")
	out = strings.Join(strings.Fields(out), " ")
	for _, want := range []string{
		", as it is", ", cleaned", "Brackwater, driver finish [2]", "dents raised first", "(letters-nos), as it is",
		"(crank-repro), as it is", "right vent handle (drawer-vent-r), as it is",
		"else a friend of the owner may part with his (crest-friend), as it is, which may come",
		"else grille, new make, bars too fine (grille-repro)",
		"(spear-l-nos), right spear of the boxed pair (spear-r-nos)",
		"credit of trade vents", "At the makers'", "On the shop's own bench",
		"proven, nothing that meets the target costs less",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("the demo's plan doesn't show %q", want)
		}
	}
}

// An answer that can't be written is a failure.
func TestFailedWrite(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no /dev/full here")
	}
	defer full.Close()
	for _, args := range [][]string{{"plan", "testdata/demo"}, {"plan", "--json", "testdata/demo"},
		{"plan", "--mps", "-", "testdata/demo"},
		{"check", "testdata/demo"}, {"help"}, {"help", "plan"}, {"plan", "--help"}, {"version"}} {
		var errs bytes.Buffer
		if code := run(args, strings.NewReader(""), full, &errs); code != exitFailed ||
			!strings.Contains(errs.String(), "can't write the answer") {
			t.Errorf("%v: exit %d, stderr %q", args, code, &errs)
		}
	}
}

// A reader that goes away is a failed write too, not a silent death.
func TestClosedPipe(t *testing.T) {
	bin := build(t)
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	r.Close()
	var errs bytes.Buffer
	cmd := exec.Command(bin, "plan", "testdata/demo")
	cmd.Stdout, cmd.Stderr = w, &errs
	err = cmd.Run()
	w.Close()
	if code := cmd.ProcessState.ExitCode(); code != exitFailed ||
		!strings.Contains(errs.String(), "can't write the answer") {
		t.Errorf("exit %d, stderr %q, %v", code, &errs, err)
	}
}

// built is the folder of the program, made once for all tests; TestMain removes it.
var built = sync.OnceValues(func() (string, error) {
	programBuilt = true
	dir, err := os.MkdirTemp("", "brightset-test-")
	if err != nil {
		return "", err
	}
	if out, err := exec.Command("go", "build", "-o", filepath.Join(dir, "brightset"),
		"./cmd/brightset").CombinedOutput(); err != nil {
		return dir, fmt.Errorf("%w\n%s", err, out)
	}
	return dir, nil
})

// build gives the path of the program.
func build(t *testing.T) string {
	t.Helper()
	dir, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return filepath.Join(dir, "brightset")
}

var programBuilt bool // whether there is a folder to remove

// --mps writes the program for another solver; with a file the plan is printed
// as well.
func TestMPS(t *testing.T) {
	code, only, errs := brightset("plan", "--mps", "-", "testdata/demo")
	if code != exitAnswered || !strings.HasPrefix(strings.TrimLeft(only, "*"), "NAME") &&
		!strings.Contains(only, "\nROWS") || errs != "" {
		t.Fatalf("exit %d, stderr %q, stdout begins %.80q", code, errs, only)
	}
	path := filepath.Join(t.TempDir(), "demo.mps")
	code, out, _ := brightset("plan", "--mps", path, "testdata/demo")
	written, err := os.ReadFile(path)
	if err != nil || string(written) != only {
		t.Errorf("the file differs from what goes to stdout: %v", err)
	}
	if code != exitAnswered || !strings.Contains(out, "proven") {
		t.Errorf("exit %d, stdout %.80q", code, out)
	}
}
