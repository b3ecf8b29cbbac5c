package catalog

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"hash"
	"slices"
	"time"

	"brightset/catalog/journal"
)

// Options says how to load. The zero value works.
type Options struct {
	Today time.Time        // zero: dates in the past are not checked
	Now   func() time.Time // for what is recorded; nil: the clock

	NothingRecorded bool // the files alone, without their journals

	// Include holds files to be read as if the job included them, each in place
	// of the file it stands for if the job does include that.
	Include map[string]string

	Known *Known // files that were read before, and the state they gave; nil: none

	// Yet holds files that are not written yet, by their paths, to be tried before they are.
	Yet map[string]string
}

// loader holds what is known while the files of one job are put together.
type loader struct {
	opt     Options
	read    func(path string) (string, *Mistake) // readSource, except in tests
	state   *State
	list    []ranked
	partial bool            // a file could not be read: unknown ids may be known in it
	spoilt  map[string]bool // ids that stand where a table was meant, by joined kind and id

	layers []*document // trade tables, the later over the earlier
	job    *table      // top level of the job's file; nil if it can't be read
	shop   *table      // likewise the shop's
	others []*table    // included files
	parts  []*table    // those of them that the job includes: they may hold pieces
	full   bool        // they are too much together; no more are read
	size   int64       // of all files so far, in bytes
	keys   int         // keys, tables and list entries in them
	paths  int         // bytes of their names
	opened map[string]bool
	looks  looks     // at what is outside
	sum    hash.Hash // of everything that was read

	pending tried             // what may be recorded
	ours    map[string]string // what stands where the shop's journal says that a job is
	// of the shop's journal: this job's own, which count there and not here, or the other way round
	unsettled []journal.Entry
	unapplied map[string]string // entries of the job's that were not applied, by id, and why
	wrongDay  *WrongDay         // of the entry that is only tried

	metals, defects, works, targets, grades, tones *names
	slots, platers, makers, vendors, bundles       *names

	refused, breakage []byMetal[Micro] // of defects, of works
	defaults          defaults
	ranks             map[string]int // of files

	bySlotOrPart map[string][]int
	slotWords    []string // ids and parts, for "did you mean"
	pieceIDs     []string
	jobPieces    map[string]int
	shopPieces   map[string]int
	keptOut      map[string]bool // the shop's pieces that fit no slot
	priced       []pricedName    // by platers, by the piece
	listed       []*table        // levels in included files that hold prices
}

// ranked is a mistake with the place of its file among all files.
type ranked struct {
	rank int
	Mistake
}

// Load reads the job's file, the shop's file it names and what they include,
// lays the trade tables over each other and gives the compiled state. If
// anything in the files is wrong the error is a *Mistakes with everything that
// is.
func Load(path string, opt Options) (*State, error) {
	return newLoader(opt).load(path)
}

func (l *loader) load(path string) (*State, error) {
	l.readFiles(path)
	l.compile()
	if l.partial && len(l.list) == 0 { // never an answer without a file that belongs to it
		l.mistake(&document{file: path}, span{}, "a file that belongs to this job could not be read",
			"name the files of shop and include once more, or leave them out")
	}
	if len(l.list) > 0 {
		return nil, l.mistakes()
	}
	l.sortWarnings()
	return l.state, nil
}

// readFiles reads all there is, but makes nothing of it yet.
func (l *loader) readFiles(path string) {
	l.openFiles(path)
	l.state.Files = hex.EncodeToString(l.sum.Sum(nil))[:16]
	if !l.opt.NothingRecorded {
		l.readJournals()
	}
	l.state.Revision = hex.EncodeToString(l.sum.Sum(nil))[:16]
}

// source reads a file, from the disk where it is not one of those to be tried.
func (opt Options) source(path string) (string, *Mistake) {
	if text, ok := opt.Yet[path]; ok {
		return checkText([]byte(text))
	}
	return readSource(path)
}

func newLoader(opt Options) *loader {
	if opt.Now == nil {
		opt.Now = time.Now
	}
	return &loader{
		opt: opt, read: opt.source, state: &State{}, sum: sha256.New(), opened: map[string]bool{}, spoilt: map[string]bool{},
		ranks: map[string]int{}, ours: map[string]string{},
		metals: newNames("metal"), defects: newNames("defect"), works: newNames("work"),
		targets: newNames("target"), grades: newNames("grade"), tones: newNames("tone"),
		slots: newNames("slot"), platers: newNames("plater"), makers: newNames("maker"),
		vendors: newNames("vendor"), bundles: newNames("bundle"),
		jobPieces: map[string]int{}, shopPieces: map[string]int{}, keptOut: map[string]bool{}, unapplied: map[string]string{},
	}
}

// compile reads everything in such an order that whatever is referred to has
// been read before.
func (l *loader) compile() {
	l.overlayTables()
	l.readVendors()
	l.readMakers()
	l.readShop()
	l.readPlaters()
	l.readJob()
	l.readSlots()
	l.readPieces()
	l.readMatches()
	l.readTrades()
	l.readAvenues()
	l.readWanted()
	l.readLocks()
	l.readBans()
	l.readOwnerQuote()
	l.readSpent()
	l.readKept()
	l.settle()
	l.checkPriced()
	l.checkRest()
	if len(l.list) == 0 {
		l.checkHung()
		l.lookOver()
	}
}

// mistake adds a mistake; a span without a line means the file as a whole.
func (l *loader) mistake(d *document, s span, message, hint string) {
	const most = 400 // characters of a message; names in files may be of any length
	if s.in != nil {
		d = s.in
		s.line, s.column = max(0, s.line), 1
	}
	m := Mistake{File: d.file, Line: s.line, Column: s.column, Width: s.width, Message: shorten(message, most),
		Hint: shorten(hint, most)}
	if d.source == Recorded && s.in != nil { // the line of a journal tells a reader nothing
		m.Hint = "this was recorded when the files said something else: write back what was taken out of them since"
	} else if s.line > 0 {
		m.Text = lineText(d.line(s.line))
	}
	l.list = append(l.list, ranked{d.rank, m})
}

// warn adds a warning with the place it is about.
func (l *loader) warn(from Origin, message string) {
	l.state.Warnings = append(l.state.Warnings, Warning{from, message})
}

// mistakes gives all mistakes in the order of the files.
func (l *loader) mistakes() *Mistakes {
	slices.SortStableFunc(l.list, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	out := &Mistakes{}
	for i, m := range l.list {
		if i > 0 && m == l.list[i-1] {
			continue
		}
		out.List = append(out.List, m.Mistake)
	}
	return out
}

func (l *loader) sortWarnings() {
	slices.SortStableFunc(l.state.Warnings, func(a, b Warning) int {
		return cmp.Or(cmp.Compare(l.ranks[a.From.File], l.ranks[b.From.File]), cmp.Compare(a.From.Line, b.From.Line),
			cmp.Compare(a.From.Column, b.From.Column))
	})
}
