package catalog

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// inFolder writes files into a new folder and goes there.
func inFolder(t testing.TB, files map[string]string) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
}

// mustLoad loads a job that has to be without mistakes.
func mustLoad(t testing.TB, job, shop string, opt Options) *State {
	t.Helper()
	inFolder(t, map[string]string{"job.toml": job, "shop.toml": shop})
	s, err := Load("job.toml", opt)
	if err != nil {
		t.Fatalf("unexpected mistakes:\n%v", err)
	}
	return s
}

// mistakesIn loads files that have to have mistakes.
func mistakesIn(t testing.TB, files map[string]string) []Mistake {
	t.Helper()
	inFolder(t, files)
	s, err := Load("job.toml", Options{})
	if err == nil {
		t.Fatalf("no mistake found")
	}
	if s != nil {
		t.Error("a state came back together with mistakes")
	}
	var m *Mistakes
	if !errors.As(err, &m) {
		t.Fatalf("error is a %T, not *Mistakes: %v", err, err)
	}
	return m.List
}
