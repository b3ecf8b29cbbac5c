package journal

import (
	"bytes"
	"encoding/json"
	"runtime"
	"strings"
	"testing"
	"time"

	"brightset/catalog/event"
)

// Lines that are empty take no memory.
func TestEmptyLinesTakeNoMemory(t *testing.T) {
	data := bytes.Repeat([]byte("\n"), 1<<20)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	l := Read(data)
	runtime.ReadMemStats(&after)
	if n := after.TotalAlloc - before.TotalAlloc; n > 1<<20 || len(l.Problems) > 0 || l.size != 1<<20 {
		t.Errorf("%d bytes for a journal of %d; %v", n, len(data), l.Problems)
	}
}

// What is no journal is not read to its end, and the last thing said is why.
func TestTooMuchInAJournal(t *testing.T) {
	entry := func(values int) string {
		e := Entry{Version: 1, Seq: 1, ID: "a", Time: time.Unix(0, 0).UTC(), Action: "found",
			Changes: []Change{{Target: []string{"piece", "a"}, New: map[event.Key]any{"note": make([]int, values)}}}}
		line, err := e.line()
		if err != nil {
			t.Fatal(err)
		}
		return string(line)
	}
	many := entry(maxLine / 3)
	if len(many) > maxLine {
		t.Fatal("the entry is too long for this test")
	}
	for _, c := range []struct{ name, text, want string }{
		{"rubbish", strings.Repeat("{}\n", 100_000), "200 lines before this one are no entries; the rest is not looked at"},
		{"a long line", entry(maxLine), "this line is longer than 4 MiB, which no entry is"},
		{"many values", strings.Repeat(many, 5), "there is more in this journal than is ever read"},
	} {
		l := Read([]byte(c.text))
		if n := len(l.Problems); n == 0 || n > maxProblems+1 || l.Problems[n-1].Message != c.want {
			t.Errorf("%s: %d problems, last of them %+v", c.name, n, l.Problems[max(0, n-1):])
		}
	}
}

// A journal never grows beyond what is read again.
func TestFullJournal(t *testing.T) {
	path := t.TempDir() + "/job.journal"
	w, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	w.log.size = maxSize - 10
	if _, err := w.Append(entry(1)); err == nil ||
		!strings.Contains(err.Error(), "is full: a journal holds at most 64 MiB") {
		t.Error(err)
	}
	w.log.size = 0
	long := entry(1)
	long.Reason = strings.Repeat("x", maxLine)
	if _, err := w.Append(long); err == nil {
		t.Error("an entry that would not be read again was written")
	}
	if b, err := json.Marshal(entry(1)); err != nil || len(b) > 1000 {
		t.Error("the entry of this test is no small one", err)
	}
}
