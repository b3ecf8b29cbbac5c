package catalog

import "time"

// Stage is how far a piece has come. Up to StagePlated it can be at a plater's or
// not: see Piece.AtPlater.
type Stage int

const (
	StageSeen     Stage = iota // looked over; the default
	StageStripped              // the old plating is off
	StagePriced                // the plater has named his price after stripping
	StageApproved              // he has been told to go ahead: the price is spent
	StagePlated                // the work is done
	StageBack                  // on the bench again, with the grade it came back with
	StageHung                  // in its slot on the object
	StageSold
	StageLost // by a plater or on the way; or a lead that came to nothing
	StageBroken
)

// stageWords are the words of the stages in files, in their order.
var stageWords = []string{"seen", "stripped", "priced", "approved", "plated", "back", "hung", "sold", "lost", "broken"}

// String gives the word used in files.
func (s Stage) String() string { return stageWords[s] }

// Sent is what a piece was sent to a plater for: the plater's price, what he is expected
// to make of it, and when. It stays for the record when the piece is back.
type Sent struct {
	Was    bool      // it was sent
	Quote            // of one piece
	Quoted Val[bool] // the plater named the price, or agreed to it: not our own estimate
	Before []int     // works that others did before it went, and that are paid for
	After  []int     // works after plating that others do when it is back
	Lot    string    // what went to him together; freight and minimum were paid once for it
	On     Val[time.Time]
	Since  int        // days gone by since then
	Count  int        // pieces of the bag that went, at least 1
	Paid   Val[Cents] // for one piece in the end, where it is known
	Base   Val[Micro] // breakage of the metal in plating that the terms rest on
	Factor Val[Micro] // breakage factor of the plater that they rest on
}

// Spent is a sum that is spent and can't be decided on any more.
type Spent struct {
	ID    string
	For   string // in words
	Cents Cents  // below zero: money that came in
	Piece int    // None where it is not one piece's
	Bears Bears  // which markup the owner is charged on it
	From  Origin
}

// Bears says which of the markups of the quote to the owner a sum bears.
type Bears int

// The markups of what is spent: those that it bore as long as it was planned.
const (
	BearsPlating Bears = iota // what platers and makers charge, and what nothing else is said of
	BearsParts                // what is bought
	BearsNone                 // the shop's own work, and money that came in
)

var bearsWords = []string{"plating", "parts", "none"}

// String gives the word of the files.
func (b Bears) String() string { return bearsWords[b] }

// AtPlater says whether the piece is at a plater's.
func (p *Piece) AtPlater() bool { return p.Sent.Was && p.Stage < StageBack }

// Overdue is how many days longer the piece is at the plater's than he said it takes; 0
// where it isn't late, or nobody wrote down when it went.
func (p *Piece) Overdue(st *State) int {
	if !p.AtPlater() || !p.Sent.On.Set {
		return 0
	}
	return max(0, p.Sent.Since-p.Sent.Days.Or(st.Platers[p.Sent.Plater].Days))
}

// Gone says whether there is no piece any more: sold, lost or broken, or in use on
// another job.
func (p *Piece) Gone() bool { return p.Stage >= StageSold || p.Elsewhere }

// Bare says whether the old plating is off and no new one on: it can't hang like that.
func (p *Piece) Bare() bool { return p.Stage > StageSeen && p.Stage < StagePlated }

// HungIn is the piece that hangs in a slot, or None.
func (st *State) HungIn(slot int) int {
	for i := range st.Pieces {
		if p := &st.Pieces[i]; p.Stage == StageHung && p.HungIn == slot && !p.Gone() {
			return i
		}
	}
	return None
}
