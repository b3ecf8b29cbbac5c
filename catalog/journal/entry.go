// Package journal is the record of what happened: entries of JSON, one to a line,
// only ever added to the end of a file. It knows how entries are written, read,
// undone and kept safe from a crash and from a second writer; what they mean is not
// its business.
package journal

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"brightset/catalog/event"
)

// Version is the version of the format written here.
const Version = 1

// Entry is one thing that happened. It stands as a whole or not at all.
type Entry struct {
	Version int          `json:"version"`
	Seq     int          `json:"seq"` // 1, 2, 3 ... within its file
	ID      string       `json:"id"`  // the same in both files where an action concerns two
	Time    time.Time    `json:"time"`
	On      string       `json:"on,omitempty"` // the day it happened, 2027-01-31, where that is not the day of Time
	Action  event.Action `json:"action"`
	Of      int          `json:"of,omitempty"` // undo and redo: the entry concerned
	Changes []Change     `json:"changes"`
	Reason  string       `json:"reason,omitempty"`
	Job     string       `json:"job,omitempty"` // in a shop's journal: whose action it was
	Base    string       `json:"base"`          // revision of everything it was decided on

	Line int `json:"-"` // in the file
}

// Change is what an entry changes in one table.
type Change struct {
	Target event.Target      `json:"target"` // path of the table: piece, rl-1
	Old    map[event.Key]any `json:"old"`    // what its keys were; nil: not there
	New    map[event.Key]any `json:"new"`    // what they are now, the same keys
}

// Day is the day on which it happened.
func (e *Entry) Day() time.Time {
	if d, err := time.Parse(time.DateOnly, e.On); err == nil {
		return d
	}
	t := e.Time
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
}

// parse reads one line.
func parse(line []byte) (Entry, error) {
	var e Entry
	d := json.NewDecoder(bytes.NewReader(line))
	d.UseNumber()
	if err := d.Decode(&e); err != nil {
		return e, errNoEntry
	}
	switch {
	case e.Version > Version:
		return e, fmt.Errorf("this was written by a newer brightset (format %d; this one reads up to %d)", e.Version, Version)
	case e.Version < 1 || e.Action == "" || e.Time.IsZero():
		return e, errNoEntry
	}
	if err := strictly(line); err != nil {
		return e, err
	}
	for i := range e.Changes {
		c := &e.Changes[i]
		if len(c.Target) == 0 {
			return e, fmt.Errorf("this entry has a change without a target")
		}
		for _, m := range []map[event.Key]any{c.Old, c.New} {
			for k, v := range m {
				m[k] = plain(v)
			}
		}
	}
	return e, nil
}

// weight is how many values an entry holds, about: what it takes in memory goes by them.
func (e *Entry) weight() int {
	n := 4
	for _, c := range e.Changes {
		n += 4 + len(c.Target)
		for _, m := range []map[event.Key]any{c.Old, c.New} {
			for _, v := range m {
				n += values(v)
			}
		}
	}
	return n
}

func values(v any) int {
	n := 1
	switch x := v.(type) {
	case map[string]any:
		for _, e := range x {
			n += values(e)
		}
	case []any:
		for _, e := range x {
			n += values(e)
		}
	}
	return n
}

// plain turns JSON numbers into int64 or float64, as a TOML decoder gives them.
func plain(v any) any {
	switch x := v.(type) {
	case json.Number:
		if n, err := x.Int64(); err == nil {
			return n
		}
		f, err := x.Float64()
		if err != nil {
			return x.String() // out of range: refused where it is read
		}
		return f
	case map[string]any:
		for k, e := range x {
			x[k] = plain(e)
		}
	case []any:
		for i, e := range x {
			x[i] = plain(e)
		}
	}
	return v
}

// Size is how many bytes an entry takes in the file, about; 0 for none.
func (e *Entry) Size() int {
	if e == nil {
		return 0
	}
	b, err := e.line()
	if err != nil {
		return 0 // writing it will say so
	}
	return len(b)
}

// line writes an entry the way it stands in the file.
func (e *Entry) line() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(e); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
