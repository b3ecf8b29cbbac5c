package catalog

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// The days on which things are said to have happened. Plans count days, and learning
// compares them with what was promised, so a slip of the pen in a year would be believed.
//
// Two acts have an order if both change where or in what state one piece is, or change one
// key of it: the one recorded later can't have happened on an earlier day. What is decided
// (plans kept, locks, bans) and the ledger have none.
//
// A day is beyond reason if it is both after the day on which it was recorded, by the
// machine's clock, and more than a year after all that the job knows of (its start and what
// was recorded before); or more than ten years before all of these.
const (
	mostAhead  = 366  // days
	mostBehind = 3650 // days
)

const oneDay = 24 * time.Hour

// stateKeys are the keys of a piece that say where and in what state it is; all below its
// table sent do as well.
var stateKeys = []event.Key{event.KeyStage, event.KeyHungIn, event.KeyQuantity, event.KeyPrice, event.KeyDays,
	event.KeyJob}

// WrongDay says why something can't have happened on the day given for it.
type WrongDay struct{ Message, Hint string }

func (e *WrongDay) Error() string { return e.Message + "; " + e.Hint }

// calendar goes through what was recorded and finds the days that can't be right.
type calendar struct {
	first, last time.Time                 // of the job's start and the days that can be right; zero where there is none
	latest      map[string]*journal.Entry // by what an entry changes, the one of the latest day
}

// newCalendar begins with the job's start, where there is one.
func newCalendar(start Val[time.Time]) *calendar {
	return &calendar{first: start.V, last: start.V, latest: map[string]*journal.Entry{}}
}

// add says what is wrong with the day of an entry that was recorded at a moment; nil where
// nothing is. What is wrong is no measure for what follows.
func (c *calendar) add(e *journal.Entry, recorded time.Time) *WrongDay {
	if wrong := c.beyond(e, recorded); wrong != nil {
		return wrong
	}
	keys := orderedBy(e)
	for _, k := range keys {
		if before := c.latest[k]; before != nil && before.Day().After(e.Day()) {
			return tooEarly(e, before, k)
		}
	}
	for _, k := range keys {
		c.latest[k] = e
	}
	if c.last.Before(e.Day()) {
		c.last = e.Day()
	}
	if c.first.IsZero() || e.Day().Before(c.first) {
		c.first = e.Day()
	}
	return nil
}

func (c *calendar) beyond(e *journal.Entry, recorded time.Time) *WrongDay {
	day, today := e.Day(), recorded.UTC().Truncate(oneDay)
	low, high := today, today.Add(oneDay) // it may be tomorrow where the shop is
	if !c.last.IsZero() {
		high = later(high, c.last.Add(mostAhead*oneDay))
		if c.first.Before(low) {
			low = c.first
		}
	} else {
		high = high.Add(mostAhead * oneDay)
	}
	low = low.Add(-mostBehind * oneDay)
	switch {
	case day.After(high):
		return &WrongDay{fmt.Sprintf("%q is beyond reason: it is after %s, more than a year past all that this job knows of",
			e.Day().Format(time.DateOnly), today.Format(time.DateOnly)),
			fmt.Sprintf("give the day it happened, %s at the latest", high.Format(time.DateOnly))}
	case day.Before(low):
		return &WrongDay{fmt.Sprintf("%q is beyond reason: it is more than ten years before all that this job knows of",
			e.Day().Format(time.DateOnly)),
			fmt.Sprintf("give the day it happened, %s at the earliest, or leave it out and say it in words: --reason",
				low.Format(time.DateOnly))}
	}
	return nil
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

// tooEarly names the entry that can only have happened before.
func tooEarly(e, before *journal.Entry, key string) *WrongDay {
	piece, _, _ := strings.Cut(strings.TrimPrefix(key, "shop:"), "\x00")
	at, which := before.Day().Format(time.DateOnly), "what was recorded before it"
	if before.Seq > 0 {
		which = fmt.Sprintf("entry %d", before.Seq)
	}
	return &WrongDay{fmt.Sprintf("%q is before %s (%s, piece %q) of %s, which it follows", e.Day().Format(time.DateOnly),
		which, before.Action, piece, at),
		fmt.Sprintf("give a day from %s on, such as --on %[1]s; if that entry is wrong, take it back first: brightset "+
			"record undo", at)}
}

// orderedBy is what an entry has to be in order with others for: the keys of pieces that
// it changes, and the state of each piece.
func orderedBy(e *journal.Entry) []string {
	var keys []string
	for i := range e.Changes {
		t := e.Changes[i].Target
		if !t.Is(event.TablePiece) {
			continue
		}
		state := t.Part() == event.TableSent
		for k := range e.Changes[i].New {
			keys = append(keys, strings.Join(append(slices.Clone(t[1:]), string(k)), "\x00"))
			state = state || len(t) == 2 && slices.Contains(stateKeys, k)
		}
		if state {
			keys = append(keys, t[1]+"\x00")
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

// leaveOutWrongDays finds the entries whose days can't be right. They are told, and count neither
// for what day it is nor for how long anything took. Of an entry that is only tried it is
// a reason to refuse it.
func (l *loader) leaveOutWrongDays() {
	if l.state.Record == nil {
		return
	}
	c := newCalendar(l.state.Job.Start)
	for i := range l.state.Record.Entries {
		e := &l.state.Record.Entries[i]
		recorded := e.Time
		if recorded.IsZero() {
			recorded = l.opt.Now()
		}
		wrong := c.add(e, recorded)
		if wrong == nil {
			continue
		}
		if l.pending.job != nil && e.ID == l.pending.job.ID && e.Line == 0 {
			l.wrongDay = wrong
			continue
		}
		if l.state.Record.Misdated == nil {
			l.state.Record.Misdated = map[int]bool{}
		}
		l.state.Record.Misdated[e.Seq] = true
		l.warn(Origin{Source: Recorded, File: JournalOf(l.job.doc.file), Line: e.Line, Column: 1},
			fmt.Sprintf("entry %d (%s): its day %s; the entry counts, but not for what day it is nor for how long anything took",
				e.Seq, acted(e), wrong.Message))
	}
}

// acted is what an entry is about, in short: the action and the piece.
func acted(e *journal.Entry) string {
	for _, c := range e.Changes {
		if c.Target.Is(event.TablePiece) {
			return fmt.Sprintf("%s, piece %q", e.Action, strings.TrimPrefix(c.Target.Name(), "shop:"))
		}
	}
	return string(e.Action)
}

// reckonDays works out what day it is, and how long what was sent is gone.
func (l *loader) reckonDays() {
	job, sentOn := &l.state.Job, map[string]bool{} // pieces that were sent on a day that can't be right
	start := job.Start
	for i := range l.entries() {
		e := &l.state.Record.Entries[i]
		wrong := l.state.Record.Misdated[e.Seq]
		for _, c := range e.Changes {
			if c.Target.Is(event.TablePiece) && c.Target.Part() == event.TableSent &&
				(c.New[event.KeyOn] != nil || e.Action == event.Sent) {
				sentOn[c.Target.Name()] = wrong
			}
		}
		if wrong {
			continue
		}
		if !start.Set {
			start.V, start.Set, job.StartBy = e.Day(), true, e.Seq
		}
		if job.AsOf.IsZero() || e.Day().After(job.AsOf) {
			job.AsOf, job.AsOfBy = e.Day(), e.Seq
		}
	}
	if job.AsOf.IsZero() {
		return
	}
	days := func(from time.Time) int { return max(0, int(job.AsOf.Sub(from)/oneDay)) }
	job.Elapsed = days(start.V)
	for i := range l.state.Pieces {
		p := &l.state.Pieces[i]
		key := p.ID
		if p.InShop {
			key = "shop:" + p.ID
		}
		if p.Sent.On.Set && !sentOn[key] {
			p.Sent.Since = days(p.Sent.On.V)
		}
	}
}
