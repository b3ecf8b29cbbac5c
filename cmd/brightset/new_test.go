package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What new writes passes check without a warning, and has a plan.
func TestNewWorksAsItStands(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "my", "car")
	if code, out, errs := brightset("new", folder); code != exitAnswered || !strings.Contains(out, "brightset check") {
		t.Fatalf("exit %d\n%s%s", code, out, errs)
	}
	code, out, errs := brightset("check", folder)
	if code != exitAnswered || errs != "" || strings.Contains(out, "Worth knowing") {
		t.Errorf("check: exit %d\n%s%s", code, out, errs)
	}
	if code, out, errs := brightset("plan", folder); code != exitAnswered {
		t.Errorf("plan: exit %d\n%s%s", code, out, errs)
	}
}

// The keys that stand there commented out are keys that are understood.
func TestNewCommentedKeys(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"job.toml", "shop.toml"} {
		text, err := scaffold.ReadFile("scaffold/" + name)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(string(text), "\n")
		for i, line := range lines {
			if bare, ok := strings.CutPrefix(line, "# "); ok && (strings.Contains(bare, " = ") || strings.HasPrefix(bare, "[")) {
				lines[i] = bare
			}
		}
		if err := os.WriteFile(filepath.Join(folder, name), []byte(strings.Join(lines, "\n")), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if code, _, errs := brightset("check", folder); code != exitAnswered {
		t.Errorf("exit %d\n%s", code, errs)
	}
}

// What is there already is never touched, and then nothing is written.
func TestNewNeverOverwrites(t *testing.T) {
	for _, name := range []string{"job.toml", "shop.toml"} {
		folder := t.TempDir()
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte("mine"), 0o666); err != nil {
			t.Fatal(err)
		}
		code, out, errs := brightset("new", folder)
		if code != exitFailed || out != "" || !strings.Contains(errs, "nothing was written") {
			t.Errorf("%s: exit %d, stdout %q, stderr %q", name, code, out, errs)
		}
		if text, err := os.ReadFile(path); err != nil || string(text) != "mine" {
			t.Errorf("%s was touched: %q, %v", name, text, err)
		}
		if files, err := os.ReadDir(folder); err != nil || len(files) != 1 {
			t.Errorf("%s: %d files, %v", name, len(files), err)
		}
	}
}
