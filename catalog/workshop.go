package catalog

import (
	"slices"
	"time"
)

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
	// Misfit is the chance that a reproduction nobody has tried on doesn't fit; without it,
	// all are reckoned to fit, and the plan says which to hold up to the object.
	Misfit Val[Micro]
	Works  []int    // trade works it does itself, indices into Tables.Works
	Jobs   []string // files of its jobs, as seen from where the user is

	Name, Address, Phone, Contact string // who it is to those who get its papers; Contact the person to call

	// CallAbove is how far a plater may go above the price that stands on his order before
	// he has to call, as a share of it.
	CallAbove Micro
}

// defaultCallAbove is the margin where the shop gives none. Common practice, no published
// source.
const defaultCallAbove = 150_000

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
	Drift    Centi      // by how much the tone of one lot of his may be off from another's; default nothing
	Spread   Spread     // how far a guess of his work may be off; the trade tables' where not given
	Levels   []Level
	From     Origin
}

// Level is a plater's grade of work. Rate and Grade are per metal, indexed like
// Tables.Metals; not Set where he doesn't plate that metal at this level. A level without
// rates goes by its prices alone.
type Level struct {
	Name   string
	Rate   []Val[Cents] // per dm2
	Prices []Price      // by the piece, in place of the rate where there is one
	Grade  []Val[Centi] // reached
	Tone   Val[Centi]
	From   Origin
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

// Bundle is several pieces sold for one price; or, of a piece that is sold by the box alone, a
// box of it, of which so many are bought as hold what is used.
type Bundle struct {
	ID     string // of a box that of its piece
	Vendor int    // index, None where it costs no freight
	Price  Cents
	Box    int // pieces in a box, 2 to MaxQuantity; 0: a bundle, bought once
	Days   Val[int]
	From   Origin
}

// Together are the bundles that have a table of their own, which come first; what is sold by
// the box follows them.
func (s *State) Together() []Bundle {
	n := slices.IndexFunc(s.Bundles, func(b Bundle) bool { return b.Box > 0 })
	if n < 0 {
		n = len(s.Bundles)
	}
	return s.Bundles[:n]
}

// Count is how many of it are bought if so many pieces come out of it.
func (b *Bundle) Count(pieces int) int {
	if b.Box == 0 {
		return min(pieces, 1)
	}
	return (pieces + b.Box - 1) / b.Box
}
