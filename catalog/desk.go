package catalog

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"maps"
	"os"
	"slices"
	"time"

	"brightset/catalog/journal"
)

// Desk is a job open for recording: its state, and the tables it was made of.
type Desk struct {
	State *State
	path  string
	opt   Options
	l     *loader
}

// Deed is one thing to be recorded. It stands as a whole or not at all.
type Deed struct {
	Action string
	On     string // the day it happened, 2027-01-31; "" for today
	Reason string
	Sets   []Set
}

// Set gives a key of one table a value, as a TOML decoder would, or nil to take the key
// out.
type Set struct {
	Shop   bool     // in the shop's file
	Target []string // path of the table
	Key    string
	Value  any
}

// ErrChanged is what a second writer is told.
var ErrChanged = errors.New("changed meanwhile: somebody else recorded something, or a file was edited; nothing was recorded, look again and repeat it")

// OpenDesk loads a job for recording. Errors are those of Load.
func OpenDesk(path string, opt Options) (*Desk, error) {
	l := newLoader(opt)
	st, err := l.load(path)
	if err != nil {
		return nil, err
	}
	return &Desk{State: st, path: path, opt: opt, l: l}, nil
}

// Value is what a key of a table is now; nil where it is not there.
func (d *Desk) Value(shop bool, target []string, key string) any {
	return plainValue(lookUp(holder(d.roots(shop), target).doc.root, target)[key])
}

// Keys are the keys of a table, sorted; none where there is no such table.
func (d *Desk) Keys(shop bool, target []string) []string {
	return slices.Sorted(maps.Keys(lookUp(holder(d.roots(shop), target).doc.root, target)))
}

func (d *Desk) roots(shop bool) []*table {
	if shop && d.l.shop != nil {
		return []*table{d.l.shop}
	}
	return append([]*table{d.l.job}, d.l.parts...)
}

// changes gives what a deed changes in one of the two files.
func (d *Desk) changes(deed *Deed, shop bool) []journal.Change {
	var out []journal.Change
	for _, s := range deed.Sets {
		if s.Shop != shop {
			continue
		}
		i := slices.IndexFunc(out, func(c journal.Change) bool { return slices.Equal(c.Target, s.Target) })
		if i < 0 {
			i = len(out)
			out = append(out, journal.Change{Target: s.Target, Old: map[string]any{}, New: map[string]any{}})
		}
		out[i].Old[s.Key], out[i].New[s.Key] = d.Value(shop, s.Target, s.Key), s.Value
	}
	for i := range out { // what stays as it is is no change
		for k, v := range out[i].New {
			if same(out[i].Old[k], v) {
				delete(out[i].Old, k)
				delete(out[i].New, k)
			}
		}
	}
	return slices.DeleteFunc(out, func(c journal.Change) bool { return len(c.New) == 0 })
}

// Try gives the state as it would be after a deed. What is wrong with it comes back as
// *Mistakes.
func (d *Desk) Try(deed Deed) (*State, error) {
	l := newLoader(d.opt)
	l.tried = func() {
		doc := &document{file: "what is recorded", rank: -1, places: map[string]place{}}
		for _, shop := range []bool{false, true} {
			for _, c := range d.changes(&deed, shop) {
				roots := slices.Concat([]*table{l.job}, l.parts)
				if shop {
					roots = []*table{l.shop}
				}
				change(holder(roots, c.Target).doc, doc, 0, c)
			}
		}
	}
	return l.load(d.path)
}

// Record writes a deed to the journal, the shop's part of it to the shop's, and gives
// the state that follows. What would make a mistake of the state is refused with
// *Mistakes; ErrChanged says that the state this desk shows is not the present one.
func (d *Desk) Record(deed Deed) (*State, error) {
	if _, err := d.Try(deed); err != nil {
		return nil, err
	}
	return d.write(deed.Action, func(w *journal.Writer, shop bool) (journal.Entry, bool) {
		e := journal.Entry{Action: deed.Action, On: deed.On, Reason: deed.Reason, Changes: d.changes(&deed, shop)}
		return e, !shop || len(e.Changes) > 0
	})
}

// Undo takes the last action back, Redo brings the last undone one back. The entry they
// give is that action's.
func (d *Desk) Undo() (*State, journal.Entry, error) {
	return d.turn(journal.Undo, (*journal.Log).NextUndo)
}

// Redo is the other way round.
func (d *Desk) Redo() (*State, journal.Entry, error) {
	return d.turn(journal.Redo, (*journal.Log).NextRedo)
}

// ErrNothing is what undo and redo say when there is nothing to do.
var ErrNothing = errors.New("there is nothing")

func (d *Desk) turn(action string, next func(*journal.Log) (journal.Entry, bool)) (*State, journal.Entry, error) {
	log, _, err := journal.Load(JournalOf(d.path))
	if err != nil {
		return nil, journal.Entry{}, err
	}
	of, ok := next(log)
	if !ok {
		return nil, of, fmt.Errorf("%w to %s", ErrNothing, action)
	}
	st, err := d.write(action, func(w *journal.Writer, shop bool) (journal.Entry, bool) {
		e := journal.Entry{Action: action, Of: of.Seq, Changes: turned(of.Changes, action)}
		if !shop {
			return e, true
		}
		if w == nil {
			return e, false // there is no such journal
		}
		for _, other := range w.Log().Entries {
			if other.ID == of.ID && other.Job == d.State.JobKey() && other.Action == of.Action {
				e.Of, e.Changes = other.Seq, turned(other.Changes, action)
				return e, true
			}
		}
		return e, false
	})
	return st, of, err
}

// turned are the changes of an undo: there and back.
func turned(changes []journal.Change, action string) []journal.Change {
	if action == journal.Redo {
		return changes
	}
	var out []journal.Change
	for _, c := range changes {
		out = append(out, journal.Change{Target: c.Target, Old: c.New, New: c.Old})
	}
	return out
}

// write adds an entry to the job's journal, and before it one to the shop's where the
// deed has a part there: that part counts only once the job's entry is there.
func (d *Desk) write(action string, entry func(w *journal.Writer, shop bool) (journal.Entry, bool)) (*State, error) {
	job, err := journal.Open(JournalOf(d.path))
	if err != nil {
		return nil, told(err)
	}
	defer job.Close()
	var shop *journal.Writer
	if d.State.Shop.File != "" {
		if shop, err = d.openShop(entry); err != nil {
			return nil, told(err)
		}
		if shop != nil {
			defer shop.Close()
		}
	}
	if again, err := Load(d.path, d.opt); err != nil || again.Revision != d.State.Revision {
		return nil, errors.Join(ErrChanged, err)
	}
	id, now := newID(), d.now(job)
	for _, w := range []*journal.Writer{shop, job} {
		if w == nil {
			continue
		}
		e, _ := entry(w, w == shop)
		e.ID, e.Time, e.Base = id, now, d.State.Revision
		if e.On == "" {
			e.On = d.Today()
		}
		if w == shop {
			e.Job = d.State.JobKey()
		}
		if _, err := w.Append(e); err != nil {
			return nil, told(err)
		}
	}
	l := newLoader(d.opt)
	st, err := l.load(d.path)
	if err == nil {
		d.State, d.l = st, l
	}
	return st, err
}

// openShop opens the shop's journal where the deed has a part in it; nil where not.
func (d *Desk) openShop(entry func(w *journal.Writer, shop bool) (journal.Entry, bool)) (*journal.Writer, error) {
	path := JournalOf(d.State.Shop.File)
	if _, err := os.Stat(path); err != nil {
		if _, needed := entry(nil, true); !needed {
			return nil, nil
		}
	}
	w, err := journal.Open(path)
	if err != nil {
		return nil, err
	}
	if _, needed := entry(w, true); !needed {
		return nil, w.Close()
	}
	return w, nil
}

// told says in plain words why a journal can't be written.
func told(err error) error { return fmt.Errorf("can't record it: %w; nothing was recorded", err) }

// now is the present moment, and never before the last entry: clocks are set back.
func (d *Desk) now(w *journal.Writer) time.Time {
	now := d.opt.Now().UTC().Round(0)
	if n := len(w.Log().Entries); n > 0 && !now.After(w.Log().Entries[n-1].Time) {
		now = w.Log().Entries[n-1].Time.Add(time.Millisecond)
	}
	return now
}

func newID() string {
	var b [8]byte
	rand.Read(b[:])
	return hex.EncodeToString(b[:])
}

// Today is the day on which things are recorded.
func (d *Desk) Today() string { return d.opt.Now().Format(time.DateOnly) }

// CanTurn says whether there is something to undo, and to redo.
func (d *Desk) CanTurn() (undo, redo bool) {
	log, _, err := journal.Load(JournalOf(d.path))
	if err != nil {
		return false, false
	}
	_, undo = log.NextUndo()
	_, redo = log.NextRedo()
	return undo, redo
}
