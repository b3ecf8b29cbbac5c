package plan

import (
	"brightset/catalog"
)

// Choice is a piece, the work done to it and who does it, for one slot. Money
// is for all pieces the slot needs.
type Choice struct {
	Slot   int
	Piece  int
	Work   string // catalog.WorkAsIs, WorkClean, WorkReplate or WorkRepair
	Plater int    // catalog.None unless plated
	Level  string // "" unless plated
	Quote  int    // index into the piece's quotes, catalog.None for an estimate
	Sent   bool   // it is at the plater's already, in a lot that is paid for

	Get    catalog.Cents // to pay to have the pieces
	Give   catalog.Cents // what the customer's pieces would fetch
	Plate  catalog.Cents // the plater's part; counts towards his minimum
	Before catalog.Cents // the shop's and makers' parts done before it goes to a plater
	Makers catalog.Cents // of Before and Other, what makers charge
	Other  catalog.Cents // the shop's and makers' parts done when it is back, or in his stead: fitting, cleaning
	Strip  catalog.Cents // strip fee if refused; plated work only
	Back   catalog.Cents // freight of sending the pieces back if they don't fit

	Parts []Part // what the work consists of, in the order in which it is done

	Breakage catalog.Micro // broken, lost or spoilt in the work
	Refused  catalog.Micro // sent back after stripping
	Chance   catalog.Micro // that the piece comes at all
	Misfit   catalog.Micro // that it doesn't fit once it has come
	Fails    catalog.Micro // that the choice does not fill the slot (p)

	Grade   catalog.Centi
	Tone    catalog.Centi
	Fresh   bool
	Redone  bool // refinished for the object, by a plater
	Growing bool // leaves a fault that goes on growing
	Weak    bool // bears less than when it was new
	Days    int

	ExpectedCost catalog.Cents // expected cost of the choice alone
	Cash         catalog.Cents // planned spending if all goes well

	// Keep is what it is worth to the owner that this piece of the object's own hangs, 0 for
	// any other; Keeps is that by the chance that it does. They are no money, and in no sum of it.
	Keep, Keeps catalog.Cents

	Assumptions []Assumption // starting values it rests on
	Warnings    []string
}

// Part is one trade work within a choice and who does it.
type Part struct {
	Work  int // index into Tables.Works; catalog.None for plating itself or fitting
	Doer  Doer
	Maker int // index, catalog.None unless Doer is ByMaker
	Hours catalog.Micro
	Cost  catalog.Cents
}

// Doer says who does a work.
type Doer int

const (
	ByPlater Doer = iota
	ByShop
	ByMaker
)

// Assumption names one starting value a choice rests on, in the user's words, such as
// "hours of straighten".
type Assumption string

// InLot says whether the piece has yet to be sent to a plater.
func (c *Choice) InLot() bool { return c.Plated() && !c.Sent }

// Usable is the chance that the piece comes and fits.
func (c *Choice) Usable() catalog.Micro { return catalog.Both(c.Chance, catalog.One-c.Misfit) }

// Plated says whether a plater works on the piece.
func (c *Choice) Plated() bool { return c.Plater != catalog.None }
