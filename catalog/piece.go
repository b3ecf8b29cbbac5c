package catalog

import "slices"

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
	Off       bool     // it came off this object; default false: a spare, bought, or from the drawers
	Tried     bool     // a reproduction: tried on the object, and it fits
	Fitted    []int    // slots in which it was tried on the object: it fits there without bending
	Hardware  []string // studs, clips, screws that go with it
	Protect   string   // what has to be masked or spared: lettering, edges, threads
	Kind      Kind
	Side      Side
	Vendor    int   // index, None unless Side is Vendors
	Bundle    int   // index, None unless it comes out of a bundle, or is sold by the box
	Metal     int   // index into Tables.Metals, None for "unknown"
	Quantity  int   // default 1
	Price     Cents // to pay to have one; 0 for the customer's own and out of a bundle
	Unpriced  bool  // a vendor's of which no price is given: it counts as free
	Value     Cents // what one fetches if it is not used; customer's pieces only
	Chance    Micro // that it comes at all, default One
	Days      Val[int]
	Grade     Val[Centi] // given by eye; otherwise derived from the findings
	Tone      Val[Centi]
	Fresh     Val[bool]
	Weak      bool // bears less than when it was new, whatever is found on it now: it was mended; default false
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

// FittedIn says whether somebody has tried a piece in a slot, and found that it fits there
// without bending.
func (p *Piece) FittedIn(slot int) bool { return slices.Contains(p.Fitted, slot) }

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
	// Harmless says that a fault of shape, fastening or strength doesn't keep the piece from
	// hanging, or that it does; default what the table of its defect says.
	Harmless Val[bool]
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

// arrive settles what is known of a piece that has been worked on, sent or hung: it has
// come, and nobody waits for it, whatever was written when it was still a lead.
func (p *Piece) arrive() {
	if p.Gone() || (p.Stage == StageSeen && !p.AtPlater()) {
		return
	}
	p.Chance = One
	p.Days = Val[int]{Set: true, From: p.From}
}
