package catalog

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// dropLast takes the last line off a journal, as if the program had been killed before
// it was written.
func dropLast(t *testing.T, path string) {
	t.Helper()
	lines := strings.SplitAfter(strings.TrimSuffix(read(t, path), "\n"), "\n")
	if err := os.WriteFile(path, []byte(strings.Join(lines[:len(lines)-1], "")), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// taken is the act by which a job takes the piece in the drawer, and spends for it.
func taken(d *Recorder) Act {
	return Act{Action: "hung", Sets: []Set{
		{Shop: true, Target: []string{"piece", "drawer-1"}, Key: "job", Value: d.State.JobKey()},
		{Shop: true, Target: []string{"piece", "drawer-1"}, Key: "grade", Value: int64(80)},
		{Target: []string{"spent", "1"}, Key: "cost", Value: "20.00"},
	}}
}

// drawer says how a job sees the piece in the drawer.
func drawer(t *testing.T, path string) string {
	t.Helper()
	st := openTestRecorder(t, path).State
	i, ok := st.FindPiece("drawer-1")
	if !ok {
		t.Fatal("no piece")
	}
	switch p := st.Pieces[i]; {
	case p.Elsewhere:
		return "elsewhere"
	case p.Grade.Set:
		return "ours"
	}
	return "free"
}

func expect(t *testing.T, when, path, want string) {
	t.Helper()
	if got := drawer(t, path); got != want {
		t.Errorf("%s: the piece is %s in %s, want %s", when, got, filepath.Base(path), want)
	}
}

// TestCrashBetweenJournals: killed between the two files, an action counts for its job
// only as far as the job's journal has it; until the job records again the piece is held
// for it, and then the shop's journal is brought up.
func TestCrashBetweenJournals(t *testing.T) {
	dir := recordedJob(t)
	path, other, shop := filepath.Join(dir, "job.toml"), filepath.Join(dir, "other.toml"), filepath.Join(dir, "shop.toml")
	d := openTestRecorder(t, path)
	if _, err := d.Record(taken(d)); err != nil {
		t.Fatal(err)
	}
	dropLast(t, JournalOf(path))
	expect(t, "half recorded", path, "free")
	expect(t, "half recorded", other, "elsewhere")
	if _, _, err := openTestRecorder(t, path).Undo(); !errors.Is(err, ErrNothing) {
		t.Error("what was never recorded is undone:", err)
	}
	if _, err := openTestRecorder(t, path).Record(setGrade("arm-1", false, 80)); err != nil {
		t.Fatal(err)
	}
	expect(t, "recorded again", other, "free")

	d = openTestRecorder(t, path)
	if _, err := d.Record(taken(d)); err != nil {
		t.Fatal(err)
	}
	if _, _, err := d.Undo(); err != nil {
		t.Fatal(err)
	}
	dropLast(t, JournalOf(shop)) // the job's comes first here
	expect(t, "half undone", path, "free")
	expect(t, "half undone", other, "elsewhere")
	if _, _, err := openTestRecorder(t, path).Redo(); err != nil {
		t.Fatal(err)
	}
	expect(t, "redone", path, "ours")
	expect(t, "redone", other, "elsewhere")
	if _, _, err := openTestRecorder(t, path).Undo(); err != nil {
		t.Fatal(err)
	}
	expect(t, "undone", path, "free")
	expect(t, "undone", other, "free")
}

// TestWholeOrNot: an action whose part in one file does not apply has none in the other,
// and its sum is told.
func TestWholeOrNot(t *testing.T) {
	dir := recordedJob(t)
	path := filepath.Join(dir, "job.toml")
	d := openTestRecorder(t, path)
	if _, err := d.Record(taken(d)); err != nil {
		t.Fatal(err)
	}
	edit(t, filepath.Join(dir, "shop.toml"), `price = "20.00"`, "price = \"20.00\"\ngrade = 40")
	st := openTestRecorder(t, path).State
	if st.Job.SpentSum != 0 || len(st.Warnings) != 1 {
		t.Fatalf("spent %d, %+v", st.Job.SpentSum, st.Warnings)
	}
	w := st.Warnings[0]
	if !strings.HasSuffix(w.From.File, "shop.journal") || w.From.Line != 1 ||
		!strings.Contains(w.Message, "grade of piece.drawer-1 is 40 now") ||
		!strings.Contains(w.Message, "20.00 that it spent") {
		t.Errorf("%+v", w)
	}
}

// TestPieceTakenOut: what was recorded of a piece that no file has any more is told.
func TestPieceTakenOut(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	if _, err := openTestRecorder(t, path).Record(setGrade("arm-1", false, 80)); err != nil {
		t.Fatal(err)
	}
	text := read(t, path)
	os.WriteFile(path, []byte(text[:strings.Index(text, "[piece.arm-1]")]), 0o644)
	st := openTestRecorder(t, path).State
	if len(st.Pieces) != 1 || len(st.Warnings) == 0 || !strings.Contains(fmt.Sprint(st.Warnings),
		"piece.arm-1 is not there any more") {
		t.Errorf("%d pieces, %+v", len(st.Pieces), st.Warnings)
	}
}

// TestRedoRefused: a redo that can't apply, or makes a mistake of the job, is refused and
// not written: the job can be opened as before.
func TestRedoRefused(t *testing.T) {
	for name, c := range map[string]struct {
		deed     Act
		old, new string
		says     string
	}{
		"old value": {setGrade("arm-1", false, 80), `kind = "original"`, "kind = \"original\"\ngrade = 55",
			"can't be brought back: grade of piece.arm-1 is 55 now"},
		"mistake": {Act{Action: "lock", Sets: []Set{{Target: []string{"lock", "arm"}, Key: "piece", Value: "job:arm-1"}}},
			"[piece.arm-1", "[piece.arm-2", "arm-1"},
	} {
		path := filepath.Join(recordedJob(t), "job.toml")
		d := openTestRecorder(t, path)
		if _, err := d.Record(c.deed); err != nil {
			t.Fatal(name, err)
		}
		if _, _, err := d.Undo(); err != nil {
			t.Fatal(name, err)
		}
		text := strings.ReplaceAll(read(t, path), c.old, c.new)
		os.WriteFile(path, []byte(text), 0o644)
		before := read(t, JournalOf(path))
		if _, _, err := openTestRecorder(t, path).Redo(); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
		if read(t, JournalOf(path)) != before {
			t.Errorf("%s: it was written", name)
		}
		openTestRecorder(t, path)
	}
}

// TestTakeBack: what was recorded last can be taken back even where it is why the job
// can't be opened.
func TestTakeBack(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	if _, err := openTestRecorder(t,
		path).Record(Act{Action: "lock",
		Sets: []Set{{Target: []string{"lock", "arm"}, Key: "piece", Value: "job:arm-1"}}}); err != nil {
		t.Fatal(err)
	}
	os.WriteFile(path, []byte(strings.ReplaceAll(read(t, path), "[piece.arm-1", "[piece.arm-2")), 0o644)
	if _, err := OpenRecorder(path, Options{}); err == nil ||
		!strings.Contains(err.Error(), "write back what was taken out") {
		t.Fatalf("%v", err)
	}
	if _, e, err := TakeBack(path, Options{}); err != nil || e.Action != "lock" {
		t.Fatal(e, err)
	}
	openTestRecorder(t, path)
}

// TestIncludeEdited: a file that the job includes counts as one that was edited.
func TestIncludeEdited(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	extra := filepath.Join(filepath.Dir(path), "extra.toml")
	os.WriteFile(extra, []byte("[piece.arm-9]\nfits = [\"arm\"]\nkind = \"original\"\nmetal = \"brass\"\n"), 0o644)
	os.WriteFile(path, []byte("include = [\"extra.toml\"]\n"+read(t, path)), 0o644)
	d := openTestRecorder(t, path)
	edit(t, extra, `metal = "brass"`, `metal = "steel"`)
	if _, err := d.Record(setGrade("arm-9", false, 70)); !errors.Is(err, ErrChanged) {
		t.Errorf("%v", err)
	}
	if _, err := os.Stat(JournalOf(path)); err == nil && read(t, JournalOf(path)) != "" {
		t.Error("something was written")
	}
	d = openTestRecorder(t, path)
	if st, err := d.Record(setGrade("arm-9", false, 70)); err != nil {
		t.Error(err)
	} else if i, _ := st.FindPiece("arm-9"); st.Pieces[i].Grade.V != 70_00 {
		t.Error("a piece of an included file is not graded")
	}
}
