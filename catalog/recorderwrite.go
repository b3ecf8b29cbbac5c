package catalog

import (
	"crypto/rand"
	"encoding/hex"
	"fmt"
	"strings"
	"time"

	"brightset/catalog/disk"
	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// tried is what may be added to the two journals. The shop's part counts only with the
// job's.
type tried struct {
	job, shop *journal.Entry // shop is nil where the deed has no part there
	jobFirst  bool           // write the job's first
}

// try loads the job as if entries stood in the journals.
func (d *Recorder) try(entries tried) (*loader, error) {
	l := newLoader(d.opt)
	l.pending = entries
	_, err := l.load(d.path)
	if err := d.changed(l); err != nil {
		return nil, err
	}
	if err == nil && l.wrongDay != nil {
		return nil, l.wrongDay
	}
	return l, err
}

// changed says that what a loader has read is not what this recorder shows, or could not be
// read for want of open files, which looks alike.
func (d *Recorder) changed(l *loader) error {
	if l.state.Revision == d.State.Revision {
		return nil
	}
	for _, m := range l.list {
		if strings.HasSuffix(m.Message, tooManyOpen) {
			return told(fmt.Errorf("%s: %s: %s", m.File, tooManyOpen, m.Hint))
		}
	}
	return ErrChanged
}

// write adds entries to the journals and loads what follows. A crash between the two
// leaves a piece of the shop's held for this job rather than free for two: what takes a
// piece is written to the shop's journal first, what gives it back last. What an earlier
// crash left open there is brought up before.
func (d *Recorder) write(entries tried) (*State, error) {
	job, err := journal.Open(JournalOf(d.path))
	if err != nil {
		return nil, told(err)
	}
	defer job.Close()
	var shop *journal.Writer
	if entries.shop != nil || len(d.l.unsettled) > 0 {
		if shop, err = journal.Open(JournalOf(d.State.Shop.File)); err != nil {
			return nil, told(err)
		}
		defer shop.Close()
	}
	present := newLoader(d.opt)
	present.readFiles(d.path)
	if err := d.changed(present); err != nil {
		return nil, err
	}
	if err := d.bringUp(shop, present.unsettled); err != nil {
		return nil, told(err)
	}
	order := []struct {
		to *journal.Writer
		e  *journal.Entry
	}{{shop, entries.shop}, {job, entries.job}}
	if entries.jobFirst {
		order[0], order[1] = order[1], order[0]
	}
	now := d.now(job)
	for _, one := range order {
		if one.e == nil {
			continue
		}
		one.e.Time, one.e.Base = now, d.State.Revision
		if _, err := one.to.Append(*one.e); err != nil && (one.to == job || !entries.jobFirst) {
			return nil, told(err)
		} // else it stands in the job's, and the shop's is brought up next time
	}
	return d.again()
}

// again loads what is recorded now.
func (d *Recorder) again() (*State, error) {
	l := newLoader(d.opt)
	st, err := l.load(d.path)
	if err != nil {
		return nil, fmt.Errorf("it is recorded, but a file was edited at the same moment: %w", err)
	}
	d.State, d.l = st, l
	d.opt.Known.opened(d)
	return st, nil
}

// bringUp turns entries of the shop's journal, so that they count there as they do here.
func (d *Recorder) bringUp(shop *journal.Writer, unsettled []journal.Entry) error {
	if len(unsettled) == 0 {
		return nil
	}
	stands := map[int]bool{}
	for _, e := range shop.Log().Standing(nil) {
		stands[e.Seq] = true
	}
	for i := range unsettled {
		action := event.Redo
		if stands[unsettled[i].Seq] {
			action = event.Undo
		}
		e := turning(action, &unsettled[i])
		e.ID, e.Time, e.Base, e.Job, e.On = newID(), d.now(shop), d.State.Revision, d.State.JobKey(), d.Today()
		if _, err := shop.Append(*e); err != nil {
			return err
		}
	}
	return nil
}

// told says in plain words why a journal can't be written.
func told(err error) error {
	return fmt.Errorf("can't record it: %w; nothing was recorded%s", err, disk.Hint(err,
		"what is recorded lies beside the job's file: copy the job's folder to one of your own, and go on there"))
}

// now is the present moment, and never before the last entry: clocks are set back.
func (d *Recorder) now(w *journal.Writer) time.Time {
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
