package catalog

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// BenchmarkOpenJournal opens a job with 10,000 entries.
func BenchmarkOpenJournal(b *testing.B) {
	dir := b.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../testdata/demo")); err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(dir, "job.toml")
	w, err := journal.Open(JournalOf(path))
	if err != nil {
		b.Fatal(err)
	}
	for n := range 10_000 {
		old, now := any(int64(40+(n-1)%50)), any(int64(40+n%50))
		if n == 0 {
			old = nil
		}
		if _, err := w.Append(journal.Entry{ID: fmt.Sprint(n), Time: time.Date(2031, 1, 20, 0, 0, n, 0, time.UTC),
			Action: "graded",
			Changes: []journal.Change{{Target: []string{"piece", "crest-1"}, Old: map[event.Key]any{"tone": old},
				New: map[event.Key]any{"tone": now}}}}); err != nil {
			b.Fatal(err)
		}
	}
	w.Close()
	for b.Loop() {
		st, err := Load(path, Options{})
		if err != nil || len(st.Record.Entries) != 10_000 || len(st.Warnings) > 0 {
			b.Fatal(err, len(st.Warnings))
		}
	}
}
