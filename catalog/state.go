// Package catalog turns the user's files and the journal into one checked,
// compiled state. It owns slots, pieces, findings, platers, the trade tables,
// money and area. Nothing else in the program reads a file of the user's.
package catalog

import (
	"time"

	"brightset/catalog/journal"
	"brightset/catalog/standard"
)

// None is the index of "nothing" wherever the state refers to one of its lists.
const None = -1

// State is everything the decision rests on. Lists are in the order of the
// files, the job's before the shop's; everything refers to everything else by
// index into these lists. A State is not changed after loading: a what-if works
// on a Clone.
type State struct {
	Job      Job
	Shop     Shop
	Slots    []Slot
	Matches  []Match
	Pieces   []Piece
	Platers  []Plater
	Makers   []Maker
	Vendors  []Vendor
	Bundles  []Bundle
	Trades   []Trade
	Avenues  []Avenue
	Wanted   []Wanted
	Locks    []Lock
	Bans     []Ban
	Tables   Tables
	Warnings []Warning
	Quote    OwnerQuote
	Kept     *Kept   // nil where no plan was kept
	Record   *Record // what stands of the job's journal
	Revision string  // of all files and journals this was made of
	Files    string  // of the files alone, without what was recorded
}

// Record is what was recorded and not undone, in its order. It is shared between
// clones and never changed.
type Record struct {
	Entries  []journal.Entry
	Misdated map[int]bool // by number, entries whose day can't be right
	Ignored  map[int]bool // by number, entries that don't apply: what they change is not what it was
}

// IgnoredSum is what the entries spent that don't apply: it counts nowhere.
func (r *Record) IgnoredSum() (sum Cents) {
	for i := range r.Entries {
		if e := &r.Entries[i]; r.Ignored[e.Seq] {
			sum += SpentBy(e)
		}
	}
	return sum
}

// Job is the object being restored and what is asked of its trim as a whole.
type Job struct {
	File     string // as given on the command line
	Title    string
	Currency string     // ISO 4217 code, default USD
	Target   Target     // the resolved target of the set
	Budget   Val[Cents] // what is left of it: what is spent already is taken off, so it may be below zero
	BudgetOn BudgetOn
	// Keep is what it is worth to the owner that the object's own piece hangs in a slot,
	// where the slot gives no sum of its own; default nothing. It is never paid.
	Keep       Cents
	WithinDays Val[int]
	Start      Val[time.Time]
	Completion Val[Micro]       // chance that no slot needs a rescue
	Service    standard.Service // how hard the use is; 0 where not said
	Spent      []Spent
	SpentSum   Cents
	AsOf       time.Time // the latest day of what is recorded; zero where nothing is
	AsOfBy     int       // the entry that has it
	StartBy    int       // the entry whose day is the start; 0 where the job says when it starts
	Elapsed    int       // days from the start to AsOf
}

// Spend notes a sum as spent: it is off the budget.
func (j *Job) Spend(c Cents) {
	j.SpentSum += c
	j.Budget.V -= c
}

// BudgetOn says which sum the budget limits.
type BudgetOn int

const (
	OnOutlay   BudgetOn = iota // what is planned to be spent if all goes well
	OnExpected                 // the minimised total
	OnQuote                    // what the owner is quoted, markups, labour and tax included
)

// String gives the word of the files.
func (b BudgetOn) String() string { return [...]string{"outlay", "expected", "quote"}[b] }

// Target is what a set or one slot has to reach. Mean counts for a set only.
type Target struct {
	Name          string // "" where written out by hand
	Floor         Val[Centi]
	Mean          Val[Centi]
	Fresh         Val[bool] // freshly finished, whoever did it
	Redone        Val[bool] // refinished for the object: unused stock and reproductions too
	Lasting       Val[bool]
	FallbackFloor Val[Centi] // not set: the floor; fresh, redone and lasting bind fallbacks too
}

// Slot is one position in the trim set.
type Slot struct {
	ID          string
	Name        string     // default: the id
	Part        string     // what pieces may be made for; default: the id
	Area        Val[Micro] // dm2 of one piece, significant surface
	AreaWritten string     // the same with its unit, as the user wrote it
	Weight      Centi      // default 1.00
	Quantity    int        // pieces needed, default 1
	Target      Target     // resolved: the slot's own over the job's
	Own         OwnGoals   // what of the target the slot itself gives
	Rescue      Val[Cents] // resolved: the slot's, the job's, the starting value
	RescueDays  Val[int]   // resolved likewise
	MaxBreakage Val[Micro]
	Keep        Cents            // resolved: the slot's, else the job's; whatever its quantity
	Bears       bool             // a hand or a load hangs on it; default false
	Service     standard.Service // the slot's own, else the job's
	From        Origin
}

// OwnGoals is what a slot asks by itself. What it leaves open it takes from the job's
// target, whichever that is.
type OwnGoals struct {
	Named bool   // the slot names a target of its own: the job's plays no part
	Keys  Target // single keys, over either; only what is given is set
}

// Match is a group of slots whose pieces are seen together.
type Match struct {
	ID          string
	Slots       []int
	GradeWithin Val[Centi]
	ToneWithin  Val[Centi]
	SamePlater  bool
	FreshAlike  bool
	From        Origin
}

// Trade is a piece given for a piece taken.
type Trade struct {
	ID     string
	Give   int
	Get    int
	Credit Cents
	From   Origin
}

// Avenue is a place to look for a piece for one slot: a try costs something, and
// with some chance a piece of the kind turns up at a price that is a guess.
type Avenue struct {
	ID     string
	Slot   int
	Kind   Kind // of what may turn up, good enough for the slot
	Where  string
	Cost   Cents // of a try, whether something turns up or not
	Chance Micro
	Low    Cents // the price in one case of four
	Likely Cents // in two of four
	High   Cents // in one of four
	Days   int   // until it is known
	From   Origin
}

// Wanted is a kind of find the user looks out for, besides those that always are.
type Wanted struct {
	ID    string
	Slots []int // empty: all
	Kind  Kind
	Grade Val[Centi] // as it lies; not set: sound, to be plated
	Fresh bool       // freshly finished by its maker
	From  Origin
}

// Filter picks choices: an empty or None field takes all.
type Filter struct {
	Slot   int
	Piece  int
	Work   string
	Plater int
	Level  string
}

// Lock fixes the choice of one slot.
type Lock struct {
	Filter
	Reason string
	From   Origin
}

// Ban forbids choices, planned or held in reserve.
type Ban struct {
	ID string
	Filter
	Reason string
	From   Origin
}

// Warning is something that is no mistake but that the user should know.
type Warning struct {
	From    Origin
	Message string
}
