package catalog

import (
	"encoding/json"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// swift is a folder in memory where the machine has one: what is synced there costs
// nothing.
func swift(t testing.TB) string {
	t.Helper()
	dir, err := os.MkdirTemp("/dev/shm", "brightset-test")
	if err != nil {
		return t.TempDir()
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// recordedJob is a small job with a shop, in a folder of its own.
func recordedJob(t *testing.T) string {
	t.Helper()
	dir := swift(t)
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	job := `[job]
title = "a job"
shop = "shop.toml"
target = "nice"
budget = "900.00"
start = 2031-01-10

[slot.arm]
area = "1.2 dm2"

[piece.arm-1]
fits = ["arm"]
kind = "original"
metal = "brass"
[piece.arm-1.finding.haze]
defect = "haze"
severity = "moderate"
`
	write("job.toml", job)
	write("other.toml", strings.Replace(job, "a job", "another job", 1))
	write("shop.toml", `[plater.north]
days = 20
freight = "30.00"
[plater.north.level.show]
rate = {other = "40.00"}
grade = {other = 92}

[piece.drawer-1]
fits = ["arm"]
kind = "original"
metal = "brass"
price = "20.00"
[piece.drawer-1.finding.rust]
defect = "rust"
`)
	return dir
}

func openTestRecorder(t *testing.T, path string) *Recorder {
	t.Helper()
	clock := time.Date(2031, 2, 1, 9, 0, 0, 0, time.UTC)
	d, err := OpenRecorder(path, Options{Now: func() time.Time { return clock }})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// stateText is a state as text: equal texts are equal states, places and origins
// included, but for the record itself.
func stateText(t *testing.T, st *State) string {
	t.Helper()
	c := *st
	c.Record, c.Revision = nil, ""
	text, err := json.MarshalIndent(c, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func setGrade(id string, shop bool, grade int64) Act {
	return Act{Action: "graded", Sets: []Set{{Shop: shop, Target: []string{"piece", id}, Key: "grade", Value: grade}}}
}

func TestRecordAndUndo(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	d := openTestRecorder(t, path)
	before := stateText(t, d.State)
	for _, deed := range []Act{
		setGrade("arm-1", false, 80),
		setGrade("drawer-1", true, 70),
		{Action: "found", Sets: []Set{{Target: []string{"piece", "arm-1", "finding", "x"}, Key: "defect", Value: "pits"}}},
		{Action: "cleared", Sets: []Set{{Target: []string{"piece", "arm-1", "finding", "haze"}, Key: "defect"},
			{Target: []string{"piece", "arm-1", "finding", "haze"}, Key: "severity"}}},
		{Action: "new", Sets: []Set{{Target: []string{"piece", "p2"}, Key: "fits", Value: []any{"arm"}},
			{Target: []string{"piece", "p2"}, Key: "kind", Value: "original"}, {Target: []string{"piece", "p2"}, Key: "metal",
				Value: "steel"}}},
		{Action: "note", Reason: "nothing changes"},
	} {
		st, err := d.Record(deed)
		if err != nil {
			t.Fatalf("%s: %v", deed.Action, err)
		}
		after := stateText(t, st)
		if after == before && deed.Action != "note" {
			t.Errorf("%s changes nothing", deed.Action)
		}
		again := openTestRecorder(t, path)
		if stateText(t, again.State) != after {
			t.Errorf("%s: opened again the state is another", deed.Action)
		}
		if st, _, err = again.Undo(); err != nil || withoutClock(t, st) != withoutClockText(before) {
			t.Errorf("%s: its undo gives another state (%v)", deed.Action, err)
		}
		if st, _, err = openTestRecorder(t, path).Redo(); err != nil || stateText(t, st) != after {
			t.Errorf("%s: its redo gives another state (%v)", deed.Action, err)
		}
		if d = openTestRecorder(t, path); true {
			if _, _, err := d.Undo(); err != nil {
				t.Fatal(err)
			}
		}
	}
	if _, _, err := d.Undo(); !errors.Is(err, ErrNothing) {
		t.Error("more was undone than done:", err)
	}
}

// withoutClock leaves the day out, which recording moves on.
func withoutClock(t *testing.T, st *State) string { return withoutClockText(stateText(t, st)) }

func withoutClockText(text string) string {
	var kept []string
	for _, line := range strings.Split(text, "\n") {
		if !strings.Contains(line, `"AsOf"`) && !strings.Contains(line, `"Elapsed"`) {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}

// TestOldValue: an entry whose old value is not the present one changes nothing and is
// told; the others stand.
func TestOldValue(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	d := openTestRecorder(t, path)
	deed := Act{Action: "graded", Sets: []Set{{Target: []string{"piece", "arm-1"}, Key: "grade", Value: int64(80)},
		{Target: []string{"piece", "arm-1"}, Key: "tag", Value: "T1"}}}
	if _, err := d.Record(deed); err != nil {
		t.Fatal(err)
	}
	if _, err := d.Record(setGrade("drawer-1", true, 66)); err != nil {
		t.Fatal(err)
	}
	edit(t, path, `kind = "original"`, "kind = \"original\"\ngrade = 55")
	d = openTestRecorder(t, path)
	if p := d.State.Pieces[0]; p.Grade.V != 55_00 || p.Tag != "" {
		t.Errorf("grade %d and tag %q: half an entry was applied", p.Grade.V, p.Tag)
	}
	if d.State.Pieces[1].Grade.V != 66_00 {
		t.Error("the entry after it was not applied")
	}
	if len(d.State.Warnings) != 1 || !strings.Contains(d.State.Warnings[0].Message,
		"entry 1 (graded) is not applied: grade of piece.arm-1 is 55 now and was not there then") ||
		d.State.Warnings[0].From.Line != 1 || !strings.HasSuffix(d.State.Warnings[0].From.File, "job.journal") {
		t.Errorf("%+v", d.State.Warnings)
	}
	if r := d.State.Record; !maps.Equal(r.Ignored, map[int]bool{1: true}) || r.IgnoredSum() != 0 {
		t.Errorf("%v are said not to apply", r.Ignored)
	}
	edit(t, path, "\ngrade = 55", "")
	if d = openTestRecorder(t, path); d.State.Pieces[0].Grade.V != 80_00 || len(d.State.Warnings) != 0 {
		t.Error("put back as it was, the entry does not apply again")
	}
}

func edit(t *testing.T, path, old, new string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil || !strings.Contains(string(text), old) {
		t.Fatal(err, old)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(text), old, new, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestChangedMeanwhile: a second recorder, and a file edited underneath, are told; nothing
// is written and nothing is lost.
func TestChangedMeanwhile(t *testing.T) {
	path := filepath.Join(recordedJob(t), "job.toml")
	for name, meanwhile := range map[string]func(){
		"another recorder": func() {
			if _, err := openTestRecorder(t, path).Record(setGrade("arm-1", false, 71)); err != nil {
				t.Fatal(err)
			}
		},
		"the job's file":  func() { edit(t, path, `budget = "900.00"`, `budget = "950.00"`) },
		"the shop's file": func() { edit(t, filepath.Join(filepath.Dir(path), "shop.toml"), "days = 20", "days = 21") },
		"the shop's journal": func() {
			if _, err := openTestRecorder(t, filepath.Join(filepath.Dir(path), "other.toml")).Record(setGrade("drawer-1", true,
				50)); err != nil {
				t.Fatal(err)
			}
		},
	} {
		d := openTestRecorder(t, path)
		meanwhile()
		before, _ := os.ReadFile(JournalOf(path))
		if _, err := d.Record(setGrade("arm-1", false, 99)); !errors.Is(err, ErrChanged) {
			t.Errorf("%s: %v", name, err)
		}
		if after, _ := os.ReadFile(JournalOf(path)); string(after) != string(before) {
			t.Errorf("%s: something was written", name)
		}
		if _, err := openTestRecorder(t, path).Record(setGrade("arm-1", false, 60)); err != nil {
			t.Errorf("%s: looked at again, it is refused: %v", name, err)
		}
	}
}
