package catalog

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestBroken loads every job of testdata/broken and compares all that is said of
// it with want.txt. After a change that is meant: go test ./catalog -update
func TestBroken(t *testing.T) {
	root := filepath.Join("..", "testdata", "broken")
	jobs, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	if len(jobs) < 150 {
		t.Errorf("only %d broken jobs", len(jobs))
	}
	for _, job := range jobs {
		t.Run(job.Name(), func(t *testing.T) {
			dir := filepath.Join(root, job.Name())
			got := saidOf(t, filepath.Join(dir, "job.toml"), dir)
			golden := filepath.Join(dir, "want.txt")
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// saidOf is every mistake of a job, one after the other, with paths as seen from
// its folder. A job that loads is a failure: it should not.
func saidOf(t *testing.T, path, dir string) string {
	t.Helper()
	st, err := Load(path, Options{Today: time.Date(2030, 12, 1, 0, 0, 0, 0, time.UTC)})
	var m *Mistakes
	if !errors.As(err, &m) {
		t.Fatalf("no mistake found (error %v)", err)
	}
	if st != nil {
		t.Error("half a state came with the mistakes")
	}
	var b strings.Builder
	for _, one := range m.List {
		if one.Hint == "" {
			t.Errorf("nothing is said about what to do: %s", one.String())
		}
		b.WriteString(one.String())
		b.WriteString("\n")
	}
	return strings.ReplaceAll(b.String(), dir+string(filepath.Separator), "")
}
