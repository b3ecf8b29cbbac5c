package journal

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"brightset/catalog/event"
	"brightset/testdata/campaign"
)

func entry(n int) Entry {
	return Entry{
		ID: fmt.Sprintf("id%d", n), Time: time.Date(2031, 2, 1, 10, 0, n, 0, time.UTC), Action: "found",
		Base: "0123456789abcdef",
		Changes: []Change{{Target: []string{"piece", "rl-1"}, Old: map[event.Key]any{"grade": nil},
			New: map[event.Key]any{"grade": int64(n)}}},
	}
}

func add(t *testing.T, path string, entries ...Entry) {
	t.Helper()
	w, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	for _, e := range entries {
		if _, err := w.Append(e); err != nil {
			t.Fatal(err)
		}
	}
}

func load(t *testing.T, path string) *Log {
	t.Helper()
	l, _, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// TestRoundTrip: what was written is what is read, with the values a TOML decoder
// gives.
func TestRoundTrip(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.journal")
	e := entry(1)
	e.On, e.Reason, e.Job = "2031-01-31", `a "quote" <b> & `+"\u2028 line", "../a/job.toml"
	e.Changes[0].New = map[event.Key]any{"a": int64(62), "b": 62.5, "c": "240.00", "d": true, "e": []any{"x", int64(1)},
		"f": map[string]any{"g": 0.05}, "h": nil}
	add(t, path, e)
	got := load(t, path).Entries[0]
	e.Version, e.Seq, e.Line = Version, 1, 1
	if !reflect.DeepEqual(got, e) {
		t.Errorf("got\n%+v\nwant\n%+v", got, e)
	}
	if got.Day() != time.Date(2031, 1, 31, 0, 0, 0, 0, time.UTC) {
		t.Error("the day it happened is", got.Day())
	}
}

// TestProblems: what can't be used is named with its line, and nothing is added to such
// a file.
func TestProblems(t *testing.T) {
	line := func(n int, change func(*Entry)) string {
		e := entry(n)
		e.Version, e.Seq = 1, n
		if change != nil {
			change(&e)
		}
		text, _ := e.line()
		return string(text)
	}
	for _, c := range []struct {
		name, text string
		at         int
		says       string
	}{
		{"newer", line(1, nil) + line(2, func(e *Entry) { e.Version = 2 }), 2, "newer brightset"},
		{"missing", line(1, nil) + line(3, nil), 2, "2 was expected"},
		{"twice", line(1, nil) + line(1, nil), 2, "2 was expected"},
		{"text", line(1, nil) + "hello\n" + line(2, nil), 2, "no entry"},
		{"two on a line", strings.TrimSpace(line(1, nil)) + line(2, nil), 1, "more than one"},
		{"undo of nothing", line(1, func(e *Entry) { e.Action, e.Of = event.Undo, 1 }), 1, "no action before it"},
		{"no action", line(1, func(e *Entry) { e.Action = "" }), 1, "no entry"},
		{"no target", line(1, func(e *Entry) { e.Changes[0].Target = nil }), 1, "without a target"},
		{"null", "null\n", 1, "no entry"},
	} {
		l := Read([]byte(c.text))
		if len(l.Problems) == 0 || l.Problems[0].Line != c.at || !strings.Contains(l.Problems[0].Message, c.says) {
			t.Errorf("%s: %+v", c.name, l.Problems)
		}
		path := filepath.Join(t.TempDir(), "x.journal")
		os.WriteFile(path, []byte(c.text), 0o644)
		w, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Append(entry(9)); err == nil {
			t.Errorf("%s: an entry was added to a file that is not whole", c.name)
		}
		w.Close()
		if now, _ := os.ReadFile(path); string(now) != c.text {
			t.Errorf("%s: the file was changed", c.name)
		}
	}
}

// TestTorn: wherever a crash cuts the last line, it is set aside, nothing is lost, and
// the next entry is whole.
func TestTorn(t *testing.T) {
	dir := t.TempDir()
	whole := filepath.Join(dir, "whole.journal")
	add(t, whole, entry(1), entry(2))
	data, _ := os.ReadFile(whole)
	first := bytes.IndexByte(data, '\n') + 1
	for cut := first + 1; cut < len(data); cut++ {
		path := filepath.Join(dir, fmt.Sprintf("%d.journal", cut))
		os.WriteFile(path, data[:cut], 0o644)
		l := load(t, path)
		if len(l.Entries) != 1 || !bytes.Equal(l.Torn, data[first:cut]) || len(l.Problems) > 0 {
			t.Fatalf("cut at %d: %d entries, torn %q, problems %v", cut, len(l.Entries), l.Torn, l.Problems)
		}
		add(t, path, entry(3))
		l = load(t, path)
		torn, _ := os.ReadFile(path + TornSuffix)
		if len(l.Entries) != 2 || l.Entries[1].ID != "id3" || l.Torn != nil || string(torn) != string(data[first:cut])+"\n" {
			t.Fatalf("cut at %d: %d entries, %q set aside", cut, len(l.Entries), torn)
		}
	}
}

// TestUndoRedo plays random actions, undos and redos, also across a re-open, against
// two plain stacks.
func TestUndoRedo(t *testing.T) {
	for seed := range uint64(campaign.Cases(24, 60)) {
		r := rand.New(rand.NewPCG(seed, 7))
		path := filepath.Join(t.TempDir(), "job.journal")
		var done, undone []int
		for n := 1; n <= 40; n++ {
			w, err := Open(path)
			if err != nil {
				t.Fatal(err)
			}
			e := entry(n)
			switch next, ok := w.Log().NextUndo(); {
			case r.IntN(3) == 0 && ok:
				e.Action, e.Of = event.Undo, next.Seq
				undone, done = append(undone, done[len(done)-1]), done[:len(done)-1]
			case r.IntN(3) == 0 && len(undone) > 0:
				back, ok := w.Log().NextRedo()
				if !ok {
					t.Fatalf("seed %d: nothing to redo, want %d", seed, undone[len(undone)-1])
				}
				e.Action, e.Of = event.Redo, back.Seq
				done, undone = append(done, undone[len(undone)-1]), undone[:len(undone)-1]
			default:
				done, undone = append(done, n), nil
			}
			if _, err := w.Append(e); err != nil {
				t.Fatal(err)
			}
			w.Close()
			var got []int
			for _, e := range load(t, path).Standing(nil) {
				got = append(got, e.Seq)
			}
			if fmt.Sprint(got) != fmt.Sprint(done) {
				t.Fatalf("seed %d, step %d: standing %v, want %v", seed, n, got, done)
			}
		}
	}
}

// TestManyWriters: eight at once, each opening for itself; every entry is there once,
// numbered without a gap.
func TestManyWriters(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.journal")
	var wait sync.WaitGroup
	for g := range 8 {
		wait.Go(func() {
			for n := range 20 {
				w, err := Open(path)
				if err == nil {
					_, err = w.Append(entry(100*g + n))
					w.Close()
				}
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	l := load(t, path)
	ids := map[string]bool{}
	for _, e := range l.Entries {
		ids[e.ID] = true
	}
	if len(l.Entries) != 160 || len(ids) != 160 || len(l.Problems) > 0 || l.Torn != nil {
		t.Errorf("%d entries, %d ids, problems %v", len(l.Entries), len(ids), l.Problems)
	}
}

// TestFailedWrite: an entry that can't be written leaves the file as it was.
func TestFailedWrite(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.journal")
	add(t, path, entry(1))
	before, _ := os.ReadFile(path)
	w, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	bad := entry(2)
	bad.Changes[0].New["grade"] = make(chan int)
	if _, err := w.Append(bad); err == nil {
		t.Error("what JSON can't hold was written")
	}
	w.f.Close() // as a disk that is gone
	if _, err := w.Append(entry(2)); err == nil {
		t.Error("an entry was confirmed that was not written")
	}
	if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
		t.Error("the file was changed")
	}
}

func TestNotAFile(t *testing.T) {
	if _, err := Open(t.TempDir()); err == nil {
		t.Error("a folder was opened as a journal")
	}
	if _, _, err := Load(t.TempDir()); err == nil {
		t.Error("a folder was read as a journal")
	}
}
