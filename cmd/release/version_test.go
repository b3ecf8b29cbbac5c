package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestVersion: a commit is called by its day and its hash, the same in every clone and time zone,
// with its tag before them; what was changed since is said.
func TestVersion(t *testing.T) {
	first := t.TempDir()
	t.Setenv("GIT_CONFIG_GLOBAL", os.DevNull)
	t.Setenv("GIT_COMMITTER_DATE", "2031-02-01T23:30:00-05:00") // the next day, by the clock of the world
	run := func(dir string, args ...string) string {
		t.Helper()
		cmd := exec.Command("git", append([]string{"-C", dir, "-c", "user.name=a", "-c", "user.email=a@b"}, args...)...)
		text, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("git %v: %v: %s", args, err, text)
		}
		return strings.TrimSpace(string(text))
	}
	expect := func(dir, want string) {
		t.Helper()
		t.Chdir(dir)
		if got := version(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	expect(first, "")
	file := filepath.Join(first, "a.go")
	if err := os.WriteFile(file, []byte("package a\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	run(first, "init", "--quiet")
	run(first, "add", "a.go")
	run(first, "commit", "--quiet", "-m", "one")
	want := "2031-02-02, commit " + run(first, "rev-parse", "HEAD")[:12]
	expect(first, want)
	second := filepath.Join(t.TempDir(), "a clone")
	run(first, "clone", "--quiet", "--depth", "1", "file://"+first, second)
	t.Setenv("TZ", "Asia/Tokyo")
	expect(second, want)
	run(first, "tag", "v1.2.0")
	expect(first, "v1.2.0, "+want)
	if err := os.WriteFile(file, []byte("package b\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	expect(first, "v1.2.0, "+want+" and changes")
}
