package main

import (
	"errors"
	"fmt"
	"time"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
	"brightset/cmd/brightset/internal/record"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/paper"
	"brightset/model/program"
	"brightset/solver"
)

// openRecorder opens the job that is the last argument.
func openRecorder(c *call) (*catalog.Recorder, error) {
	path, err := jobPath(c)
	if err != nil {
		return nil, err
	}
	return catalog.OpenRecorder(path, catalog.Options{Today: now(), Now: now})
}

func (o *recordOptions) do(c *call, a *record.Action) (int, error) {
	d, err := openRecorder(c)
	if err != nil {
		return 0, err
	}
	deed, err := a.Deed(d, o.facts)
	if err != nil {
		return 0, usageError{err.Error()}
	}
	before := d.State
	st, err := d.Record(deed)
	if err != nil {
		return 0, unrecorded(err)
	}
	return exitAnswered, o.confirm(c, before, st,
		report.Done{Entry: last(st), Text: fmt.Sprintf("%s %s", a.Name, o.facts.Target)})
}

// unrecorded says of mistakes that nothing was recorded. A day that can't be right is a
// mistake on the command line.
func unrecorded(err error) error {
	var m *catalog.Mistakes
	var day *catalog.WrongDay
	if errors.As(err, &day) {
		return usageError{err.Error()}
	}
	if errors.As(err, &m) {
		return fmt.Errorf("%w\n\nnothing was recorded", err)
	}
	return err
}

func last(st *catalog.State) int {
	if st.Record == nil || len(st.Record.Entries) == 0 {
		return 0
	}
	return st.Record.Entries[len(st.Record.Entries)-1].Seq
}

func (o *recordOptions) turn(c *call, action event.Action) (int, error) {
	d, err := openRecorder(c)
	var m *catalog.Mistakes
	if err != nil && (action != event.Undo || !errors.As(err, &m)) {
		return 0, err
	}
	var before, st *catalog.State
	var e journal.Entry
	done := report.Done{Text: "taken back"}
	switch {
	case d == nil: // what was recorded last may be what is wrong
		path, _ := jobPath(c)
		st, e, err = catalog.TakeBack(path, catalog.Options{Today: now(), Now: now})
	case action == event.Undo:
		before = d.State
		st, e, err = d.Undo()
	default:
		before, done.Text = d.State, "brought back"
		st, e, err = d.Redo()
	}
	if errors.Is(err, catalog.ErrNothing) {
		return 0, usageError{err.Error()}
	}
	if err != nil {
		return 0, unrecorded(err)
	}
	done.Entry, done.Text = e.Seq, done.Text+": "+report.EntryText(&e)
	return exitAnswered, o.confirm(c, before, st, done)
}

// nextTime is how long may be looked for what is to be done next: a record is typed many
// times a day, and plan says it too.
const nextTime = 3 * time.Second

// next plans with what was recorded; nil where that takes too long to be sure of.
func next(st *catalog.State) *report.Next {
	ctx, stop := searching(nextTime)
	defer stop()
	p, err := program.Solve(ctx, st, solver.Settings{})
	switch {
	case err != nil || p.Status == solver.Stopped:
		return nil
	case !p.Has:
		return &report.Next{Plan: p}
	}
	return &report.Next{Plan: p, Acts: paper.Todo(p)}
}

// confirm prints what was recorded. Where that can't be printed, it stands all the same.
func (o *recordOptions) confirm(c *call, before, st *catalog.State, done report.Done) error {
	done.Next = next(st)
	err := o.show(c, answer{
		text: func() string { return report.Recorded(before, st, done) },
		json: func() (string, error) { return report.RecordedJSON(before, st, done) },
	})
	if err != nil {
		return fmt.Errorf("it is recorded (entry %d, %s), only the answer could not be printed: %w; don't record it again",
			done.Entry, done.Text, err)
	}
	return nil
}

func (o *recordOptions) list(c *call) (int, error) {
	st, err := load(c)
	if err != nil {
		return 0, err
	}
	return exitAnswered, o.show(c, answer{
		text: func() string { return report.Journal(st) },
		json: func() (string, error) { return report.JournalJSON(st) },
	})
}
