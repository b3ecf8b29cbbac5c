package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestLearn records a few outcomes, learns from them, and includes what was learnt.
func TestLearn(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"record", "sent", "crest-2,drawer-grille", dir, "--to", "pell", "--on", "2031-02-01"},
		{"record", "back", "crest-2", dir, "--grade", "91", "--cost", "155.00", "--on", "2031-05-01"},
		{"record", "broke", "drawer-grille", dir, "--on", "2031-03-01"},
		{"record", "sent", "spear-r1", dir, "--to", "brackwater", "--level", "driver", "--on", "2031-03-02"},
		{"record", "refused", "spear-r1", dir, "--on", "2031-03-05"},
	} {
		if code, out, errs := brightset(args...); code != 0 {
			t.Fatal(args, code, out, errs)
		}
	}
	out := filepath.Join(dir, "learned.toml")
	code, text, errs := brightset("learn", dir, "--out", out)
	if code != 0 {
		t.Fatal(code, errs)
	}
	sameAsGolden(t, "learn", text)
	if code, _, errs := brightset("learn", dir, "--out", out); code != exitFailed ||
		!strings.Contains(errs, "is there already") {
		t.Errorf("written over: %d %s", code, errs)
	}
	learnt, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	sameAsGolden(t, "learned-toml", string(learnt))
	_, before, _ := brightset("check", "--slot", "grille", "--json", dir)
	shop := filepath.Join(dir, "shop.toml")
	own, _ := os.ReadFile(shop)
	os.WriteFile(shop, append([]byte("include = [\"learned.toml\"]\n"), own...), 0o644)
	code, after, errs := brightset("check", "--slot", "grille", "--json", dir)
	if code != 0 || after == before {
		t.Errorf("what was learnt changes nothing: %d %s", code, errs)
	}
	// learning again from the same outcomes gives the same: nothing is counted twice
	code, _, errs = brightset("learn", dir, "--out", filepath.Join(dir, "again.toml"))
	again, _ := os.ReadFile(filepath.Join(dir, "again.toml"))
	if code != 0 || string(again) != string(learnt) {
		t.Errorf("learnt again, with what was learnt included:\n%s\n%s", again, errs)
	}
	if code, text, _ := brightset("learn", "--json", shop); code != 0 || !strings.Contains(text, `"pieces": 3`) {
		t.Error(code, text)
	}
}
