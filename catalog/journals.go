package catalog

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"time"

	"brightset/catalog/journal"
)

// JournalOf is the journal beside a file of the user's: job.toml has job.journal.
func JournalOf(file string) string {
	return strings.TrimSuffix(file, filepath.Ext(file)) + ".journal"
}

// readJournals lays what was recorded over what is written, before anything is made of
// either: the user's files stay as they are, and everything downstream sees one state.
func (l *loader) readJournals() {
	if l.job == nil {
		return
	}
	job := l.openJournal(l.job.doc.file)
	finished := map[string]bool{}
	if job != nil {
		for i := range job.log.Entries {
			finished[job.log.Entries[i].ID] = true
		}
	}
	var own []journal.Entry // what this job changed of the shop's
	if l.shop != nil {
		if shop := l.openJournal(l.shop.doc.file); shop != nil {
			standing := shop.log.Standing(func(e *journal.Entry) bool {
				return e.Job != l.state.JobKey() || finished[e.ID]
			})
			l.applyAll(shop, standing, []*table{l.shop})
			own = slices.DeleteFunc(standing, func(e journal.Entry) bool { return e.Job != l.state.JobKey() })
		}
	}
	if job != nil {
		standing := job.log.Standing(nil)
		l.applyAll(job, standing, slices.Concat([]*table{l.job}, l.parts))
		l.state.Record = &Record{together(standing, own)}
	}
}

// together adds to the entries of a job what they changed in the shop's file. There a
// piece goes by the key that is unique over both files.
func together(job, shop []journal.Entry) []journal.Entry {
	at := map[string]int{}
	for i := range job {
		at[job[i].ID] = i
	}
	for _, e := range shop {
		i, ok := at[e.ID]
		if !ok {
			continue
		}
		for _, c := range e.Changes {
			target := slices.Clone(c.Target)
			if len(target) > 1 {
				target[1] = "shop:" + target[1]
			}
			job[i].Changes = append(slices.Clip(job[i].Changes), journal.Change{Target: target, Old: c.Old, New: c.New})
		}
	}
	return job
}

// JobKey is how the shop's journal calls a job: the path of its file as seen from the
// shop's.
func (s *State) JobKey() string {
	key, err := filepath.Rel(filepath.Dir(s.Shop.File), s.Job.File)
	if err != nil {
		key = s.Job.File
	}
	return filepath.ToSlash(key)
}

// recorded is a journal and, for the places of what it says, its text.
type recorded struct {
	log *journal.Log
	doc *document
}

// openJournal reads the journal beside a file; nil where there is none.
func (l *loader) openJournal(file string) *recorded {
	path := JournalOf(file)
	log, data, err := journal.Load(path)
	doc := &document{file: path, source: Recorded, rank: 500_000 + len(l.ranks), lines: strings.Split(string(data), "\n"), places: map[string]place{}}
	if err != nil {
		problem := unreadable(err)
		l.mistake(doc, span{}, problem.Message, problem.Hint)
		return nil
	}
	l.ranks[path] = doc.rank
	l.seen(path, data[:bytes.LastIndexByte(data, '\n')+1])
	if data == nil {
		return nil
	}
	for _, p := range log.Problems {
		l.mistake(doc, span{line: p.Line, column: 1, width: 1}, p.Message, "this file is the program's own: put it back as it was, from a copy")
	}
	if log.Torn != nil {
		l.warn(Origin{Source: Recorded, File: path, Line: len(doc.lines)}, fmt.Sprintf("the last line was never finished, after a crash or a full disk: it counts for nothing, and the next entry sets it aside in %s", filepath.Base(path)+journal.TornSuffix))
	}
	return &recorded{log, doc}
}

// seen adds a file to what the revision of the state stands for.
func (l *loader) seen(path string, data []byte) {
	fmt.Fprintf(l.sum, "%q %d\n", filepath.Base(path), len(data))
	l.sum.Write(data)
}

// applyAll lays entries over the tables of some files. One that doesn't apply is told
// and changes nothing.
func (l *loader) applyAll(r *recorded, entries []journal.Entry, roots []*table) {
	for i := range entries {
		e := &entries[i]
		if why := l.apply(r, e, roots); why != "" {
			l.warn(Origin{Source: Recorded, File: r.doc.file, Line: e.Line, Column: 1},
				fmt.Sprintf("entry %d (%s) is not applied: %s; write that back, or record it anew", e.Seq, e.Action, why))
		}
	}
}

// apply makes all changes of an entry, or none and says why.
func (l *loader) apply(r *recorded, e *journal.Entry, roots []*table) (why string) {
	at := make([]*table, len(e.Changes))
	for i, c := range e.Changes {
		at[i] = holder(roots, c.Target)
		now := lookUp(at[i].doc.root, c.Target)
		for _, key := range slices.Sorted(maps.Keys(c.Old)) {
			if was := now[key]; !same(was, c.Old[key]) {
				return fmt.Sprintf("%s of %s is %s now and was %s then", keyText(key), dotted(c.Target), valueText(was), valueText(c.Old[key]))
			}
		}
	}
	for i, c := range e.Changes {
		change(at[i].doc, r.doc, e.Line, c)
	}
	return ""
}

// holder is the file that a table is written in: the one that has the whole path, else
// the one that has its beginning, else the first.
func holder(roots []*table, path []string) *table {
	for n := len(path); n >= 2; n-- {
		for _, t := range roots {
			if lookUp(t.doc.root, path[:n]) != nil {
				return t
			}
		}
	}
	return roots[0]
}

// lookUp gives the table at a path, nil where there is none.
func lookUp(m map[string]any, path []string) map[string]any {
	for _, p := range path {
		sub, ok := m[p].(map[string]any)
		if !ok {
			return nil
		}
		m = sub
	}
	return m
}

// change writes one change into the tables of a file and notes where it stands. A table
// that nothing is left in is gone.
func change(d, in *document, line int, c journal.Change) {
	spot := span{line: line, column: 1, width: 1, in: in}
	m, path := d.root, ""
	for i, p := range c.Target {
		sub, ok := m[p].(map[string]any)
		path = join(c.Target[:i+1]...)
		if !ok {
			sub = map[string]any{}
			m[p] = sub
			d.places[path] = place{spot, spot}
		}
		m = sub
	}
	for key, v := range c.New {
		if v == nil {
			delete(m, key)
			continue
		}
		m[key] = dated(key, v)
		d.places[path+"\x00"+key] = place{spot, spot}
	}
	if len(m) == 0 && len(c.Target) > 1 {
		delete(lookUp(d.root, c.Target[:len(c.Target)-1]), c.Target[len(c.Target)-1])
	}
}

// dateKeys are the keys whose values are dates, which JSON has no type for.
var dateKeys = map[string]bool{"date": true, "start": true, "on": true}

// localDate is how the TOML decoder marks a date without a time.
var localDate = time.FixedZone("date-local", 0)

// dated turns the texts of dates, here and below, into dates.
func dated(key string, v any) any {
	switch x := v.(type) {
	case string:
		if d, err := time.ParseInLocation(time.DateOnly, x, localDate); err == nil && dateKeys[key] {
			return d
		}
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = dated(k, e)
		}
		return out
	}
	return v
}

// Plain turns a decoded value into what a journal can hold.
func plainValue(v any) any {
	switch x := v.(type) {
	case time.Time:
		return x.Format(time.DateOnly)
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = plainValue(e)
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = plainValue(e)
		}
		return out
	}
	return v
}

// same compares a decoded value with one of a journal. 62 and 62.0 are the same.
func same(a, b any) bool { return reflect.DeepEqual(numbers(plainValue(a)), numbers(b)) }

func numbers(v any) any {
	switch x := v.(type) {
	case int64:
		return float64(x)
	case int:
		return float64(x)
	case map[string]any:
		out := make(map[string]any, len(x))
		for k, e := range x {
			out[k] = numbers(e)
		}
		return out
	case []any:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = numbers(e)
		}
		return out
	case []string:
		out := make([]any, len(x))
		for i, e := range x {
			out[i] = e
		}
		return out
	}
	return v
}

// valueText is a value as a message shows it.
func valueText(v any) string {
	switch x := plainValue(v).(type) {
	case nil:
		return "not there"
	case string:
		return fmt.Sprintf("%q", clip(x))
	case map[string]any:
		var all []string
		for _, k := range slices.Sorted(maps.Keys(x)) {
			all = append(all, keyText(k)+" = "+valueText(x[k]))
		}
		return "{" + strings.Join(all, ", ") + "}"
	default:
		return fmt.Sprint(x)
	}
}

// lastDay is the day of the last thing that was recorded, by what happened when.
func lastDay(entries []journal.Entry) (last time.Time) {
	for i := range entries {
		if d := entries[i].Day(); cmp.Compare(d.Unix(), last.Unix()) > 0 || last.IsZero() {
			last = d
		}
	}
	return last
}
