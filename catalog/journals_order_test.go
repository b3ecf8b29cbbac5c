package catalog

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// TestWhereStarted: the shop knows a job by one name wherever the program is started,
// and a job whose folder was moved is still the same; a copy of it is another.
func TestWhereStarted(t *testing.T) {
	top := recordedJob(t)
	dir := filepath.Join(top, "car")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(read(t, filepath.Join(top, "job.toml")), "shop.toml", "../shop.toml", 1)
	path := filepath.Join(dir, "job.toml")
	os.WriteFile(path, []byte(text), 0o644)
	d := openTestRecorder(t, path)
	if _, err := d.Record(taken(d)); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	expect(t, "started in the folder", "job.toml", "ours")
	t.Chdir(top)
	expect(t, "started above it", "car/job.toml", "ours")
	if err := os.CopyFS("copy", os.DirFS("car")); err != nil {
		t.Fatal(err)
	}
	expect(t, "copied", "copy/job.toml", "elsewhere")
	if err := os.Rename("car", "boat"); err != nil {
		t.Fatal(err)
	}
	expect(t, "moved", "boat/job.toml", "ours")
	expect(t, "moved", "other.toml", "elsewhere")
	if _, _, err := openTestRecorder(t, "boat/job.toml").Undo(); err != nil {
		t.Fatal(err)
	}
	expect(t, "undone", "other.toml", "free")
}

// TestOrderOfJournals: what takes a piece of the shop's is written there first, what gives
// it back last, so that a crash between the two holds the piece rather than gives it twice.
func TestOrderOfJournals(t *testing.T) {
	d := openTestRecorder(t, filepath.Join(recordedJob(t), "job.toml"))
	deed := taken(d)
	if e := d.entries(&deed); e.jobFirst || e.shop == nil {
		t.Errorf("recorded: %+v", e)
	}
	if _, err := d.Record(deed); err != nil {
		t.Fatal(err)
	}
	if _, e, err := d.turned(event.Undo, (*journal.Log).NextUndo); err != nil || !e.jobFirst || e.shop == nil {
		t.Errorf("undone: %+v, %v", e, err)
	}
	if _, _, err := d.Undo(); err != nil {
		t.Fatal(err)
	}
	if _, e, err := d.turned(event.Redo, (*journal.Log).NextRedo); err != nil || e.jobFirst || e.shop == nil {
		t.Errorf("redone: %+v, %v", e, err)
	}
}

// TestChangedBeforeWriting: what is edited between the trial and the lock is noticed, and
// so is what is edited before the trial.
func TestChangedBeforeWriting(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	d := openTestRecorder(t, path)
	deed := setGrade("arm-1", false, 80)
	entries := d.entries(&deed)
	if _, err := d.try(entries); err != nil {
		t.Fatal(err)
	}
	edit(t, path, `budget = "900.00"`, `budget = "950.00"`)
	if _, err := d.write(entries); !errors.Is(err, ErrChanged) || read(t, JournalOf(path)) != "" {
		t.Errorf("%v", err)
	}
	if _, err := d.Record(deed); !errors.Is(err, ErrChanged) {
		t.Errorf("recorded: %v", err)
	}
}

// TestManyAtOnce: of several who record on what they saw, one is taken and the others are
// told; nothing is lost and nothing stands twice.
func TestManyAtOnce(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	taken := 0
	for round := range int64(10) {
		errs := make(chan error, 4)
		for who := range int64(4) {
			d := openTestRecorder(t, path)
			go func() {
				_, err := d.Record(setGrade("arm-1", false, 10+round*5+who))
				errs <- err
			}()
		}
		for range 4 {
			if err := <-errs; err == nil {
				taken++
			} else if !errors.Is(err, ErrChanged) {
				t.Error(err)
			}
		}
	}
	st := openTestRecorder(t, path).State
	if taken < 10 || len(st.Record.Entries) != taken || len(st.Warnings) != 0 {
		t.Errorf("%d were taken, %d stand, %+v", taken, len(st.Record.Entries), st.Warnings)
	}
}

// TestOneJournal: two files that would share a journal are refused, and nothing hangs.
func TestOneJournal(t *testing.T) {
	dir := swift(t)
	os.WriteFile(filepath.Join(dir, "x.toml"), []byte("[job]\ntitle = \"x\"\nshop = \"x.shop\"\n"), 0o644)
	os.WriteFile(filepath.Join(dir, "x.shop"), []byte("[shop]\n"), 0o644)
	if _, err := OpenRecorder(filepath.Join(dir, "x.toml"), Options{}); err == nil ||
		!strings.Contains(err.Error(), "give one of the two files another name") {
		t.Errorf("%v", err)
	}
}
