package journal

import (
	"bytes"
	"fmt"

	"brightset/catalog/event"
)

// Log is a journal as it was read.
type Log struct {
	Entries  []Entry
	Torn     []byte // a last line that was never finished: a crash in the middle of writing
	Problems []Problem
	size     int64 // of what is whole
}

// Problem is a line that can't be used, and why.
type Problem struct {
	Line    int
	Message string
}

// Read reads a journal. What can't be read is told in Problems and Torn, never lost.
func Read(data []byte) *Log {
	l := &Log{}
	end := bytes.LastIndexByte(data, '\n') + 1
	l.size = int64(end)
	if end < len(data) {
		l.Torn = data[end:]
	}
	actions := map[int]bool{}
	room := maxValues
	for i, rest := 0, data[:end]; len(rest) > 0; i++ {
		at := bytes.IndexByte(rest, '\n')
		line := rest[:at]
		rest = rest[at+1:]
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		if len(l.Problems) == maxProblems || len(line) > maxLine || room < 0 {
			l.Problems = append(l.Problems, Problem{i + 1, tooMuch(len(l.Problems), len(line))})
			return l
		}
		e, err := parse(line)
		room -= e.weight()
		if err == nil && e.Seq != l.last()+1 {
			err = fmt.Errorf("this is entry %d, and %d was expected: a line is missing or stands twice", e.Seq, l.last()+1)
		}
		if err == nil {
			err = refers(&e, actions)
		}
		if err != nil {
			l.Problems = append(l.Problems, Problem{i + 1, err.Error()})
			if e.Seq <= l.last() {
				continue
			}
			e.Changes = nil // nothing of it is laid over the files
		}
		e.Line = i + 1
		actions[e.Seq] = !e.Action.Turns()
		l.Entries = append(l.Entries, e)
	}
	return l
}

// tooMuch says why reading ends where it does.
func tooMuch(problems, line int) string {
	switch {
	case problems == maxProblems:
		return fmt.Sprintf("%d lines before this one are no entries; the rest is not looked at", problems)
	case line > maxLine:
		return fmt.Sprintf("this line is longer than %d MiB, which no entry is", maxLine>>20)
	}
	return "there is more in this journal than is ever read"
}

func (l *Log) last() int {
	if len(l.Entries) == 0 {
		return 0
	}
	return l.Entries[len(l.Entries)-1].Seq
}

// refers makes sure that an undo or redo names an entry before it that is one.
func refers(e *Entry, actions map[int]bool) error {
	if !e.Action.Turns() || actions[e.Of] {
		return nil
	}
	return fmt.Errorf("this entry is an %s of entry %d, which is no action before it", e.Action, e.Of)
}

// Standing are the entries that count: actions that were not undone, in their order.
// With counts, entries for which it is false are as if they were not there.
func (l *Log) Standing(counts func(*Entry) bool) []Entry {
	done, _ := l.stacks(counts)
	out := make([]Entry, 0, len(done))
	for _, i := range done {
		out = append(out, l.Entries[i])
	}
	return out
}

// NextUndo is the action that an undo takes back: the last that stands.
func (l *Log) NextUndo() (Entry, bool) {
	done, _ := l.stacks(nil)
	if len(done) == 0 {
		return Entry{}, false
	}
	return l.Entries[done[len(done)-1]], true
}

// NextRedo is the action that a redo brings back: the last undone, as long as nothing
// new was done since.
func (l *Log) NextRedo() (Entry, bool) {
	_, undone := l.stacks(nil)
	if len(undone) == 0 {
		return Entry{}, false
	}
	return l.Entries[undone[len(undone)-1]], true
}

// stacks goes through the entries: done are the actions that stand, in the order of
// their entries; undone those that a redo may bring back, the next one last.
func (l *Log) stacks(counts func(*Entry) bool) (done, undone []int) {
	bySeq := map[int]int{}
	standing := make([]bool, len(l.Entries))
	for i := range l.Entries {
		e := &l.Entries[i]
		if counts != nil && !counts(e) {
			continue
		}
		switch at, known := bySeq[e.Of]; {
		case !e.Action.Turns():
			bySeq[e.Seq] = i
			standing[i] = true
			undone = undone[:0]
		case !known:
		case e.Action == event.Undo:
			standing[at] = false
			undone = append(undone, at)
		default:
			standing[at] = true
			if n := len(undone); n > 0 && undone[n-1] == at {
				undone = undone[:n-1]
			}
		}
	}
	for i, stands := range standing {
		if stands {
			done = append(done, i)
		}
	}
	return done, undone
}
