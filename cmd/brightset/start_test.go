package main

import (
	"os"
	"path/filepath"
	"testing"
)

// TestFirstJob: without a word the program begins with the job of the folder it is in, else with
// the last one at the bench, while that is there, else with a new one among the documents.
func TestFirstJob(t *testing.T) {
	home, here, elsewhere := t.TempDir(), t.TempDir(), t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(home, "settings"))
	t.Setenv("HOME", home)
	was, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chdir(was) })
	if err := os.Chdir(here); err != nil {
		t.Fatal(err)
	}
	expect := func(why, want string) {
		t.Helper()
		if got := firstJob(); got != want {
			t.Errorf("%s: %q, want %q", why, got, want)
		}
	}
	touch := func(path string) {
		t.Helper()
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	expect("no folder of documents", filepath.Join(home, "brightset", "job.toml"))
	if err := os.Mkdir(filepath.Join(home, "Documents"), 0o700); err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(home, "Documents", "brightset", "job.toml")
	expect("nothing yet", fresh)
	last := filepath.Join(elsewhere, "Wörk of \"May\".toml")
	touch(last)
	if err := os.Chdir(elsewhere); err != nil {
		t.Fatal(err)
	}
	remember(filepath.Base(last)) // as it was typed
	if err := os.Chdir(here); err != nil {
		t.Fatal(err)
	}
	expect("one was at the bench", last)
	touch("job.toml")
	expect("one is here", "job.toml")
	os.Remove("job.toml")
	os.Remove(last)
	expect("the last one is gone", fresh)
	file, err := memory()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte("job.toml\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	expect("no whole path is kept", fresh)
}

// TestBenchIsRemembered: the job that was at the bench is the one that the next start begins with,
// however it was named and however the bench ended.
func TestBenchIsRemembered(t *testing.T) {
	program := build(t)
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	dir := demoCopy(t)
	_, kill := benchUnder(t, loader{program: "env"}, program, dir)
	kill()
	t.Chdir(t.TempDir())
	if got := firstJob(); got != filepath.Join(dir, "job.toml") {
		t.Errorf("the next start begins with %q", got)
	}
}

// TestNoCommand: where nobody sits at a terminal, nothing is opened.
func TestNoCommand(t *testing.T) {
	if code, out, errs := brightset(); code != exitUsage || out != "" || errs == "" {
		t.Errorf("exit %d, %q, %q", code, out, errs)
	}
}
