// Package catalog turns the user's files and the journal into one checked,
// compiled state. It owns slots, pieces, findings, platers, the trade tables,
// money and area. Nothing else in the program reads a file of the user's.
package catalog

import (
	"slices"
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
}

// Record is what was recorded and not undone, in its order. It is shared between
// clones and never changed.
type Record struct {
	Entries  []journal.Entry
	Misdated map[int]bool // by number, entries whose day can't be right
}

// Job is the object being restored and what is asked of its trim as a whole.
type Job struct {
	File       string // as given on the command line
	Title      string
	Currency   string     // ISO 4217 code, default USD
	Target     Target     // the resolved target of the set
	Budget     Val[Cents] // what is left of it: what is spent already is taken off, so it may be below zero
	BudgetOn   BudgetOn
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

// BudgetOn says which sum the budget limits.
type BudgetOn int

const (
	OnOutlay   BudgetOn = iota // what is planned to be spent if all goes well
	OnExpected                 // the minimised total
)

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
	Weight      Centi      // default 1.00
	Quantity    int        // pieces needed, default 1
	Target      Target     // resolved: the slot's own over the job's
	Own         OwnGoals   // what of the target the slot itself gives
	Rescue      Val[Cents] // resolved: the slot's, the job's, the starting value
	RescueDays  Val[int]   // resolved likewise
	MaxBreakage Val[Micro]
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

// Kind is what a piece is by birth.
type Kind string

const (
	Original     Kind = "original"     // used, made in period
	OldStock     Kind = "old-stock"    // unused, made in period
	Reproduction Kind = "reproduction" // made since
)

// Side says whose a piece is.
type Side int

const (
	Customers Side = iota
	Shops
	Vendors
)

// Piece is a physical candidate, or a bag of identical ones.
type Piece struct {
	ID        string // as written
	InShop    bool   // written in the shop's file
	InBoth    bool   // the other file has a piece of this id too
	Fits      []int  // slots of this job it fits
	Name      string
	Tag       string
	Place     string
	Marks     string
	Note      string
	Photos    []string
	Fitted    bool     // tried on the object: it fits without bending
	Hardware  []string // studs, clips, screws that go with it
	Protect   string   // what has to be masked or spared: lettering, edges, threads
	Kind      Kind
	Side      Side
	Vendor    int   // index, None unless Side is Vendors
	Bundle    int   // index, None unless it comes out of a bundle
	Metal     int   // index into Tables.Metals, None for "unknown"
	Quantity  int   // default 1
	Price     Cents // to pay to have one; 0 for the customer's own and out of a bundle
	Value     Cents // what one fetches if it is not used; customer's pieces only
	Chance    Micro // that it comes at all, default One
	Days      Val[int]
	Grade     Val[Centi] // given by eye; otherwise derived from the findings
	Tone      Val[Centi]
	Fresh     Val[bool]
	Findings  []Finding
	Fit       []Fit
	Quotes    []Quote
	Stage     Stage
	Sent      Sent
	HungIn    int  // slot, None where it hangs nowhere
	Elsewhere bool // the shop's, and in use on another job
	From      Origin
}

// Key is the id that is unique over both files: "job:rl-1" or "shop:rl-1".
func (p *Piece) Key() string {
	if p.InShop {
		return "shop:" + p.ID
	}
	return "job:" + p.ID
}

// Severity is how bad a fault is.
type Severity int

const (
	Light Severity = iota
	Moderate
	Severe
)

// String gives the word used in files.
func (s Severity) String() string { return [...]string{"light", "moderate", "severe"}[s] }

// Where is where on a piece a fault sits.
type Where string

const (
	Face Where = "face" // the default
	Edge Where = "edge"
	Back Where = "back" // hidden: costs no points
)

// Finding is one fault found on one piece.
type Finding struct {
	ID       string
	Defect   int // index into Tables.Defects
	Severity Severity
	Extent   Micro // share of the surface concerned; default the defect's usual extent
	Count    int   // how many; default 1
	Where    Where
	Done     []int // of the works that mend it, those that are done: paid for, and broke nothing
	From     Origin
}

// Fit is a slot a piece can be made to fit by handwork.
type Fit struct {
	Slot     int
	Hours    Micro
	Breakage Micro
	Cap      Centi // highest grade afterwards, default 100
	From     Origin
}

// Firmness is how much a quote can be relied upon.
type Firmness string

const (
	Estimate   Firmness = "estimate"
	AfterStrip Firmness = "after strip"
	Firm       Firmness = "firm"
)

// Quote is a plater's price for one piece.
type Quote struct {
	ID       string
	Plater   int
	Work     string // "", WorkReplate or WorkRepair
	Level    string // "" where not given
	Cost     Cents
	Firm     Firmness
	Breakage Val[Micro]
	Refused  Val[Micro]
	Grade    Val[Centi]
	Tone     Val[Centi]
	Fresh    Val[bool]
	Days     Val[int]
	Low      Val[Cents]
	High     Val[Cents]
	Date     Val[time.Time]
	Known    Val[[]string] // ids of the findings it was named for; not set: all there are
	From     Origin
}

// Knows says whether a price was named for a finding, or before it came to light.
func (q *Quote) Knows(f *Finding) bool { return !q.Known.Set || slices.Contains(q.Known.V, f.ID) }

// The four things that can be done to a piece.
const (
	WorkAsIs    = "as-is"
	WorkClean   = "clean"
	WorkReplate = "replate"
	WorkRepair  = "repair-replate"
)

// Shop is the restorer's own workshop.
type Shop struct {
	File   string     // "" where the job names none
	Hourly Val[Cents] // the starting value where the shop gives none
	Works  []int      // trade works it does itself, indices into Tables.Works
	Jobs   []string   // files of its jobs, as seen from where the user is
}

// Plater does plated work.
type Plater struct {
	ID       string
	Name     string
	Minimum  Cents // least charge of a lot
	Freight  Cents // round trip, per lot
	Days     int
	Hourly   Val[Cents] // the shop's where not given
	Least    Cents      // least charge per piece
	StripFee Cents      // for a piece sent back after stripping
	Works    []int      // trade works he takes; default: the usual ones
	Refuses  []int      // defects he refuses, indices into Tables.Defects
	Factor   Micro      // breakage factor, default One
	Levels   []Level
	From     Origin
}

// Level is a plater's grade of work. Rate and Grade are per metal, indexed like
// Tables.Metals; not Set where he doesn't plate that metal at this level.
type Level struct {
	Name  string
	Rate  []Val[Cents] // per dm2
	Grade []Val[Centi] // reached
	Tone  Val[Centi]
	From  Origin
}

// Maker does works that are not plating, such as posts or straightening.
type Maker struct {
	ID     string
	Name   string
	Hourly Cents
	Works  []int
	Days   int
	From   Origin
}

// Vendor sells pieces.
type Vendor struct {
	ID      string
	Name    string
	Freight Cents
	Days    int
	From    Origin
}

// Bundle is several pieces sold for one price.
type Bundle struct {
	ID     string
	Vendor int // index, None where it costs no freight
	Price  Cents
	Days   Val[int]
	From   Origin
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
