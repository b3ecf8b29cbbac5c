package catalog

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brightset/catalog/journal"
)

// TestTwoFiles: what concerns a piece of the shop's is in both journals; without the
// job's entry it does not count for the job, but for others.
func TestTwoFiles(t *testing.T) {
	dir := recordedJob(t)
	path := filepath.Join(dir, "job.toml")
	d := openTestRecorder(t, path)
	taken := Act{Action: "hung", Sets: []Set{
		{Shop: true, Target: []string{"piece", "drawer-1"}, Key: "job", Value: d.State.JobKey()},
		{Shop: true, Target: []string{"piece", "drawer-1"}, Key: "grade", Value: int64(80)},
	}}
	if _, err := d.Record(taken); err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(dir, "other.toml")
	st := openTestRecorder(t, other).State
	if i, _ := st.FindPiece("drawer-1"); !st.Pieces[i].Elsewhere {
		t.Error("a piece in use on one job is free for another")
	}
	if i, _ := d.State.FindPiece("drawer-1"); d.State.Pieces[i].Elsewhere || d.State.Pieces[i].Grade.V != 80_00 {
		t.Error("the job itself does not have it")
	}
	whole, _ := os.ReadFile(JournalOf(path))
	if err := os.WriteFile(JournalOf(path), nil, 0o644); err != nil { // killed between the two
		t.Fatal(err)
	}
	if i, _ := d.State.FindPiece("drawer-1"); openTestRecorder(t, path).State.Pieces[i].Grade.Set {
		t.Error("half an action counts")
	}
	os.WriteFile(JournalOf(path), whole, 0o644)
	if _, _, err := openTestRecorder(t, path).Undo(); err != nil {
		t.Fatal(err)
	}
	st = openTestRecorder(t, other).State
	if i, _ := st.FindPiece("drawer-1"); st.Pieces[i].Elsewhere {
		t.Error("undone, the piece is still taken")
	}
}

// TestRefused: what would make a mistake of the state is refused, told, and not
// written.
func TestRefused(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	d := openTestRecorder(t, path)
	for _, c := range []struct {
		set  Set
		says string
	}{
		{Set{Target: []string{"piece", "arm-1"}, Key: "grade", Value: "nise"}, `did you mean "nice"`},
		{Set{Target: []string{"piece", "arm-1"}, Key: "colour", Value: "red"}, `unknown key "colour"`},
		{Set{Target: []string{"piece", "arm-1", "finding", "x"}, Key: "severity", Value: "severe"}, "has no defect"},
		{Set{Target: []string{"piece", "arm-1"}, Key: "stage", Value: "hung"}, "does not say where it hangs"},
		{Set{Target: []string{"lock", "arm"}, Key: "piece", Value: "arm-9"}, "arm-9"},
	} {
		_, err := d.Record(Act{Action: "x", Sets: []Set{c.set}})
		var m *Mistakes
		if !errors.As(err, &m) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %v", c.set, err)
		}
	}
	if _, err := os.Stat(JournalOf(path)); err == nil {
		t.Error("something was written")
	}
}

// TestTornJournal: a last line that was never finished is told and set aside by the
// next entry.
func TestTornJournal(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	if _, err := openTestRecorder(t, path).Record(setGrade("arm-1", false, 80)); err != nil {
		t.Fatal(err)
	}
	f, _ := os.OpenFile(JournalOf(path), os.O_APPEND|os.O_WRONLY, 0)
	f.WriteString(`{"version":1,"seq":2,"id"`)
	f.Close()
	d := openTestRecorder(t, path)
	if len(d.State.Warnings) != 1 || !strings.Contains(d.State.Warnings[0].Message, "never finished") ||
		d.State.Pieces[0].Grade.V != 80_00 {
		t.Errorf("%+v", d.State.Warnings)
	}
	if _, err := d.Record(setGrade("arm-1", false, 81)); err != nil {
		t.Fatal(err)
	}
	if d = openTestRecorder(t, path); len(d.State.Warnings) != 0 || d.State.Pieces[0].Grade.V != 81_00 {
		t.Errorf("%+v", d.State.Warnings)
	}
	if torn, _ := os.ReadFile(JournalOf(path) + journal.TornSuffix); !strings.HasPrefix(string(torn),
		`{"version":1,"seq":2,"id"`) {
		t.Errorf("set aside: %q", torn)
	}
}

func TestBrokenJournal(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	os.WriteFile(JournalOf(path), []byte("hello\n"), 0o644)
	_, err := Load(path, Options{})
	var m *Mistakes
	if !errors.As(err, &m) || m.List[0].Line != 1 || !strings.HasSuffix(m.List[0].File, "job.journal") {
		t.Errorf("%v", err)
	}
}
