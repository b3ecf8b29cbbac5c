package catalog

import (
	"errors"
	"maps"
	"slices"
	"time"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// Recorder is a job open for recording: its state, and the tables it was made of.
type Recorder struct {
	State *State
	path  string
	opt   Options
	l     *loader
}

// Act is one thing to be recorded. It stands as a whole or not at all.
type Act struct {
	ID     string // of its entry, 16 digits of hex, by which a repeated request is known; "" for any
	Action event.Action
	On     string // the day it happened, 2027-01-31; "" for today
	Reason string
	Sets   []Set
}

// Set gives a key of one table a value, as a TOML decoder would, or nil to take the key
// out.
type Set struct {
	Shop   bool         // in the shop's file
	Target event.Target // path of the table
	Key    event.Key
	Value  any
}

// ErrChanged is what a second writer is told.
var ErrChanged = errors.New("changed meanwhile: somebody else recorded something, or a file was edited; nothing was " +
	"recorded, look again and repeat it")

// OpenRecorder loads a job for recording. Errors are those of Load. With Options.Known the state may be one
// that others were given too: nobody may change it.
func OpenRecorder(path string, opt Options) (*Recorder, error) {
	if opt.Known != nil {
		return opt.Known.open(path, opt)
	}
	d, err := openAnyway(path, opt)
	if err != nil {
		return nil, err
	}
	return d, nil
}

// openAnyway gives a recorder also where the job can't be read: with the state as far as it
// could be read.
func openAnyway(path string, opt Options) (*Recorder, error) {
	l := newLoader(opt)
	_, err := l.load(path)
	return &Recorder{State: l.state, path: path, opt: l.opt, l: l}, err
}

// Value is what a key of a table is now; nil where it is not there.
func (d *Recorder) Value(shop bool, target event.Target, key event.Key) any {
	return plainValue(lookUp(holder(d.roots(shop), target).doc.root, target)[string(key)])
}

// Keys are the keys of a table, sorted; none where there is no such table.
func (d *Recorder) Keys(shop bool, target event.Target) []string {
	return slices.Sorted(maps.Keys(lookUp(holder(d.roots(shop), target).doc.root, target)))
}

func (d *Recorder) roots(shop bool) []*table {
	if shop && d.l.shop != nil {
		return []*table{d.l.shop}
	}
	return append([]*table{d.l.job}, d.l.parts...)
}

// changes gives what an act changes in one of the two files.
func (d *Recorder) changes(deed *Act, shop bool) []journal.Change {
	var out []journal.Change
	for _, s := range deed.Sets {
		if s.Shop != shop {
			continue
		}
		i := slices.IndexFunc(out, func(c journal.Change) bool { return slices.Equal(c.Target, s.Target) })
		if i < 0 {
			i = len(out)
			out = append(out, journal.Change{Target: s.Target, Old: map[event.Key]any{}, New: map[event.Key]any{}})
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

// Changes says whether an act changes anything.
func (d *Recorder) Changes(deed *Act) bool {
	return len(d.changes(deed, false)) > 0 || len(d.changes(deed, true)) > 0
}

// Record writes an act to the journal, the shop's part of it to the shop's, and gives
// the state that follows. What would make a mistake of the state is refused with
// *Mistakes, and with *WrongDay what can't have happened on its day; ErrChanged says that the state
// this recorder shows is not the present one.
func (d *Recorder) Record(deed Act) (*State, error) {
	entries := d.entries(&deed)
	if _, err := d.try(entries); err != nil {
		return nil, err
	}
	return d.write(entries)
}

// entries are what an act adds to the journals.
func (d *Recorder) entries(deed *Act) tried {
	e := journal.Entry{ID: deed.ID, Action: deed.Action, On: deed.On, Reason: deed.Reason}
	if e.ID == "" {
		e.ID = newID()
	}
	if e.On == "" {
		e.On = d.Today()
	}
	job, shop := e, e
	job.Changes, shop.Changes = d.changes(deed, false), d.changes(deed, true)
	if len(shop.Changes) == 0 {
		return tried{job: &job}
	}
	shop.Job = d.State.JobKey()
	return tried{job: &job, shop: &shop}
}

// Today is the day on which things are recorded.
func (d *Recorder) Today() string { return d.opt.Now().Format(time.DateOnly) }
