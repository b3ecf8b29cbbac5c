package catalog

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"brightset/catalog/journal"
)

// JournalOf is the journal beside a file of the user's: job.toml has job.journal.
func JournalOf(file string) string {
	return strings.TrimSuffix(file, filepath.Ext(file)) + ".journal"
}

// readJournals lays what was recorded over what is written, before anything is made of
// either: the user's files stay as they are, and everything downstream sees one state.
//
// The job's own journal says which of its actions stand. What they changed of the
// shop's counts with them, whatever became of the shop's journal in a crash.
func (l *loader) readJournals() {
	if l.job == nil || l.oneJournal() {
		return
	}
	x := &overlay{l: l, job: l.openJournal(l.job.doc.file, l.pending.job),
		jobRoots: slices.Concat([]*table{l.job}, l.parts)}
	if x.job != nil {
		x.standing = x.job.log.Standing(nil)
	}
	if l.shop != nil {
		x.shop, x.shopRoots = l.openJournal(l.shop.doc.file, l.pending.shop), []*table{l.shop}
	}
	if x.shop != nil {
		l.compare(x)
	}
	x.all()
	if x.job != nil {
		r := &Record{Entries: together(x.standing, x.counting), Ignored: map[int]bool{}}
		for i := range r.Entries {
			if e := &r.Entries[i]; l.unapplied[e.ID] != "" {
				r.Ignored[e.Seq] = true
			}
		}
		l.state.Record = r
	}
}

// oneJournal reports a job and a shop whose journals would be one file, here or, as on Windows and
// on a Mac, wherever capitals and small letters are the same in names.
func (l *loader) oneJournal() bool {
	if l.shop == nil {
		return false
	}
	job, shop := JournalOf(l.job.doc.file), JournalOf(l.shop.doc.file)
	if !strings.EqualFold(filepath.Base(job), filepath.Base(shop)) || !sameFile(filepath.Dir(job), filepath.Dir(shop)) {
		return false
	}
	l.job.peek("job").wrong("shop", fmt.Sprintf("the job's file and the shop's would both have the journal %q", job),
		"give one of the two files another name")
	return true
}

// compare finds the entries of the shop's journal that count for this job. Where a
// crash left the shop's journal behind the job's, it keeps what has to be added to it.
func (l *loader) compare(x *overlay) {
	there, stands, inShop := map[string]bool{}, map[string]bool{}, map[int]bool{}
	if x.job != nil {
		for i := range x.job.log.Entries {
			there[x.job.log.Entries[i].ID] = true
		}
	}
	for i := range x.standing {
		stands[x.standing[i].ID] = true
	}
	for _, e := range x.shop.log.Standing(nil) {
		inShop[e.Seq] = true
	}
	for _, e := range x.shop.log.Entries {
		if e.Action.Turns() {
			continue
		}
		counts := inShop[e.Seq]
		if l.isOurs(e.Job, there[e.ID]) {
			if counts = stands[e.ID]; counts != inShop[e.Seq] {
				l.unsettled = append(l.unsettled, e)
			}
		}
		if counts {
			x.counting = append(x.counting, e)
		}
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

// recorded is a journal and, for the places of what it says, its text.
type recorded struct {
	log *journal.Log
	doc *document
	yet *document // stands for the entry that is only tried
}

// openJournal reads the journal beside a file, and takes an entry that is to be tried
// as if it stood at its end; nil where there is neither.
func (l *loader) openJournal(file string, pending *journal.Entry) *recorded {
	path := JournalOf(file)
	log, data, err := journal.Load(path)
	doc := &document{file: path, source: Recorded, rank: 500_000 + len(l.ranks), places: map[string]place{}}
	if err != nil {
		problem := unreadable(err)
		l.mistake(doc, span{}, problem.Message, problem.Hint)
		return nil
	}
	if !l.room(len(data) + pending.Size()) {
		l.tooMuch(func() { l.mistake(doc, span{}, tooLargeTogether, makeRoom) })
		return nil
	}
	l.looks.saw(string(data), func() string {
		data, err := journal.Bytes(path)
		if err != nil {
			return err.Error()
		}
		return string(data)
	})
	l.ranks[path] = doc.rank
	l.seen(path, data[:bytes.LastIndexByte(data, '\n')+1])
	if data == nil && pending == nil {
		return nil
	}
	if len(log.Problems) > 0 {
		doc.src = string(data)
	}
	for _, p := range log.Problems {
		l.mistake(doc, span{line: p.Line, column: 1, width: 1}, p.Message, "this file is the program's own: put it back as "+
			"it was, from a copy")
	}
	if log.Torn != nil {
		l.warn(Origin{Source: Recorded, File: path, Line: bytes.Count(data, []byte("\n")) + 1},
			fmt.Sprintf("the last line was never finished, after a crash or a full disk: it counts for nothing, and the next "+
				"entry sets it aside in %s", filepath.Base(path)+journal.TornSuffix))
	}
	if pending != nil {
		e := *pending
		e.Seq = 1
		if n := len(log.Entries); n > 0 {
			e.Seq = log.Entries[n-1].Seq + 1
		}
		log.Entries = append(log.Entries, e)
	}
	return &recorded{log, doc, &document{file: "what is recorded", rank: -1, places: map[string]place{}}}
}

// seen adds a file to what the revision of the state stands for.
func (l *loader) seen(path string, data []byte) {
	fmt.Fprintf(l.sum, "%q %d\n", filepath.Base(path), len(data))
	l.sum.Write(data)
}
