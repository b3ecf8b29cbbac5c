package main

import (
	"os"
	"strings"
	"testing"
)

// TestLotJoined: what goes to a plater on the day a lot went to him goes with it, and record
// says so; plan says that it would, for as long as that day is the last one recorded.
func TestLotJoined(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	const joins, still = "It goes with lot pell-1, in which spare, lower post gone (crest-2) went to " +
		"Pell Lane Die-Cast that day: his freight of",
		"lot pell-1 went to Pell Lane Die-Cast on 2031-02-01: what you send him the same day goes with it"
	first := says(t, "record", "sent", "crest-2", dir, "--to", "pell", "--on", "2031-02-01")
	if strings.Contains(first, "It goes with") {
		t.Errorf("the first lot joins one: %s", first)
	}
	const freight = "freight of Pell Lane Die-Cast"
	if out := says(t, "plan", "--full", dir); !strings.Contains(out, freight) || !strings.Contains(out, still) {
		t.Errorf("not charged, or not said: %s", out)
	}
	if !strings.Contains(first, "still to go to Pell Lane Die-Cast: ") ||
		!strings.Contains(first, "goes with lot pell-1") {
		t.Errorf("not told what stayed, and what that costs: %s", first)
	}
	if out := says(t, "record", "sent", "drawer-grille", dir, "--to", "pell", "--on", "2031-02-01"); !strings.Contains(out,
		joins) || !strings.Contains(out, "--new-lot") {
		t.Errorf("not told: %s", out)
	}
	if out := says(t, "record", "undo", dir); strings.Contains(out, "It goes with") {
		t.Errorf("told of an undo: %s", out)
	}
	if out := says(t, "record", "sent", "drawer-grille", dir, "--to", "pell", "--on", "2031-02-01",
		"--json"); !strings.Contains(out, `"joined_lots": [ "pell-1" ]`) {
		t.Errorf("not in the document: %s", out)
	}
	says(t, "record", "undo", dir)
	if out := says(t, "record", "sent", "drawer-grille", dir, "--to", "pell", "--on", "2031-02-01",
		"--new-lot"); strings.Contains(out, "It goes with") {
		t.Errorf("a lot of its own joins one: %s", out)
	}
	says(t, "record", "undo", dir)
	says(t, "record", "note", "a day later", dir, "--on", "2031-02-02")
	if out := says(t, "plan", "--full", dir); strings.Contains(out, "goes with it") {
		t.Errorf("said of yesterday's lot: %s", out)
	}
}

// says is what a command that succeeds says, in one line.
func says(t *testing.T, args ...string) string {
	t.Helper()
	code, out, errs := brightset(args...)
	if code != 0 {
		t.Fatal(args, code, out, errs)
	}
	return strings.Join(strings.Fields(out), " ")
}
