package catalog

import (
	"errors"
	"fmt"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// ErrNothing is what undo and redo say when there is nothing to do.
var ErrNothing = errors.New("there is nothing")

// Undo takes the last action back, Redo brings the last undone one back. The entry they
// give is that action's.
func (d *Recorder) Undo() (*State, journal.Entry, error) {
	return d.turn(event.Undo, (*journal.Log).NextUndo)
}

// Redo is the other way round.
func (d *Recorder) Redo() (*State, journal.Entry, error) {
	return d.turn(event.Redo, (*journal.Log).NextRedo)
}

// TakeBack takes the last action back where the job can't be read because of what was
// recorded: a file was edited since, and the two don't go together any more.
func TakeBack(path string, opt Options) (*State, journal.Entry, error) {
	d, err := openAnyway(path, opt)
	if d.l.job == nil {
		return nil, journal.Entry{}, err
	}
	st, e, again := d.Undo()
	if err != nil && again != nil {
		return nil, e, err // that is what has to be put right
	}
	return st, e, again
}

// CanTurn says whether there is something to undo, and to redo.
func (d *Recorder) CanTurn() (undo, redo bool) {
	log, _, err := journal.Load(JournalOf(d.path))
	if err != nil {
		return false, false
	}
	_, undo = log.NextUndo()
	_, redo = log.NextRedo()
	return undo, redo
}

// Log is all that was recorded, what was taken back and the taking back included.
func (d *Recorder) Log() ([]journal.Entry, error) {
	log, _, err := journal.Load(JournalOf(d.path))
	if err != nil {
		return nil, told(err)
	}
	return log.Entries, nil
}

func (d *Recorder) turn(action event.Action,
	next func(*journal.Log) (journal.Entry, bool)) (*State, journal.Entry, error) {
	of, entries, err := d.turned(action, next)
	if err != nil {
		return nil, of, err
	}
	l, err := d.try(entries)
	if err != nil {
		return nil, of, err
	}
	if why := l.unapplied[of.ID]; why != "" && action == event.Redo {
		return nil, of, fmt.Errorf("entry %d (%s) can't be brought back: %s; write that back, or record it anew", of.Seq,
			of.Action, why)
	}
	st, err := d.write(entries)
	return st, of, err
}

// turned finds the action that is turned, and what that adds to the journals. What gives
// a piece of the shop's back is written to the job's first.
func (d *Recorder) turned(action event.Action,
	next func(*journal.Log) (journal.Entry, bool)) (of journal.Entry, entries tried, err error) {
	log, _, err := journal.Load(JournalOf(d.path))
	if err != nil {
		return of, entries, told(err)
	}
	of, ok := next(log)
	if !ok {
		return of, entries, fmt.Errorf("%w to %s", ErrNothing, action)
	}
	entries = tried{job: turning(action, &of), jobFirst: action == event.Undo}
	if entries.shop, err = d.shopPart(&of, action); err != nil {
		return of, entries, told(err)
	}
	id := newID()
	for _, e := range []*journal.Entry{entries.job, entries.shop} {
		if e != nil {
			e.ID, e.On = id, d.Today()
		}
	}
	return of, entries, nil
}

// shopPart turns what an action changed in the shop's file; nil where it did not.
func (d *Recorder) shopPart(of *journal.Entry, action event.Action) (*journal.Entry, error) {
	if d.State.Shop.File == "" {
		return nil, nil
	}
	log, _, err := journal.Load(JournalOf(d.State.Shop.File))
	if err != nil {
		return nil, err
	}
	for i := range log.Entries {
		if e := &log.Entries[i]; e.ID == of.ID && e.Action == of.Action && d.l.isOurs(e.Job, true) {
			turned := turning(action, e)
			turned.Job = d.State.JobKey()
			return turned, nil
		}
	}
	return nil, nil
}

// turning is the entry that takes an action back, or brings it back: what it changes,
// there and back.
func turning(action event.Action, of *journal.Entry) *journal.Entry {
	e := &journal.Entry{Action: action, Of: of.Seq, Changes: of.Changes}
	if action == event.Undo {
		e.Changes = nil
		for _, c := range of.Changes {
			e.Changes = append(e.Changes, journal.Change{Target: c.Target, Old: c.New, New: c.Old})
		}
	}
	return e
}
