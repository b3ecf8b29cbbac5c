package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"brightset/cmd/brightset/internal/report"
)

// Stopped before there is a plan, it says so, and writes a document if one is asked for.
func TestTogetherNoTime(t *testing.T) {
	_, jobs := threeJobs(t)
	code, out, errs := brightset(append([]string{"plan", "--time-limit", "1ns"}, jobs...)...)
	if code == exitFailed && (out != "" || !strings.Contains(errs, "before a plan of all jobs was found")) ||
		code != exitFailed && code != exitUnproven {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	doc := planJSON(t, code, append([]string{"--time-limit", "1ns"}, jobs...)...)
	if doc.Status != "stopped" || len(doc.Jobs) != len(jobs) || doc.Expected != nil != (code == exitUnproven) {
		t.Errorf("%s, expected %v, %d jobs", doc.Status, doc.Expected, len(doc.Jobs))
	}
}

// Six jobs with long titles and large sums, with everything there is to show, stay within
// 80 columns, and a job's row in the table of what each pays stays one line.
func TestTogetherWide(t *testing.T) {
	dir, jobs := threeJobs(t)
	money := regexp.MustCompile(`"[0-9]+\.00"`)
	for _, file := range append([]string{filepath.Join(dir, "shop.toml")}, jobs...) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		writeTo(t, file, money.ReplaceAllStringFunc(string(data),
			func(m string) string { return strings.Replace(m, ".", "00.", 1) }))
	}
	alter(t, jobs[2], "club racer, bright trim", strings.Repeat("racer of the club in the valley ", 4))
	data, err := os.ReadFile(jobs[2])
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"d.toml", "e.toml", "f.toml"} {
		jobs = append(jobs, filepath.Join(dir, name))
		writeTo(t, jobs[len(jobs)-1], string(data))
	}
	code, out, errs := brightset(append([]string{"plan", "--full"}, jobs...)...)
	if code != exitAnswered {
		t.Fatalf("exit %d: %s", code, errs)
	}
	_, table, _ := strings.Cut(out, "What each job pays, expected:\n")
	table, _, _ = strings.Cut(table, "\n\n")
	lines := strings.Split(table, "\n")
	for _, head := range []string{"lines", "charges", "evened", "pays", "alone", "apart", "saves"} {
		if !strings.Contains(lines[0], head) {
			t.Errorf("no column of %s: the case shows too little\n%s", head, table)
		}
	}
	if len(lines) != 2+len(jobs)+2 {
		t.Errorf("rows don't stay one line:\n%s", table)
	}
	for _, line := range strings.Split(out, "\n") {
		if w := report.Width(line); w > report.Columns && !strings.Contains(line, dir) {
			t.Errorf("%d columns: %s", w, line)
		}
	}
	if _, again, _ := brightset(append([]string{"plan", "--full"}, jobs...)...); again != out {
		t.Error("another run gives another answer")
	}
}
