package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestIgnoredIsSaid: where a piece got another name in the files, what was recorded of it does not apply any more.
// That is the first thing to look at, on the first screen and wherever papers are made; and what it spent stands
// in no column as if it counted.
func TestIgnoredIsSaid(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	says(t, "record", "sent", "crest-2", dir, "--to", "pell", "--on", "2031-02-01")
	path := filepath.Join(dir, "job.toml")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(strings.ReplaceAll(string(text), "crest-2", "crest-9")), 0o644); err != nil {
		t.Fatal(err)
	}
	if out := says(t, "plan", dir); !strings.Contains(out, "Look at - a journal entry doesn't apply any more, ") {
		t.Errorf("plan: %s", out)
	}
	if out := says(t, "plan", "--json", dir); !strings.Contains(out, `"about": "not-applied"`) {
		t.Errorf("plan --json: %s", out)
	}
	const warning = "Look at this first: a journal entry doesn't apply any more, "
	if out := says(t, "orders", "--out", filepath.Join(dir, "papers"), dir); !strings.Contains(out, warning) {
		t.Errorf("orders: %s", out)
	}
	out := says(t, "record", "list", dir)
	for _, want := range []string{warning, "crest-2 (does not", "Spent so far: 0.00"} {
		if !strings.Contains(out, want) {
			t.Errorf("record list without %q: %s", want, out)
		}
	}
}
