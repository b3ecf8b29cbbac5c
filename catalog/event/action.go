// Package event has the words of what is recorded: what happened, to which table, and
// which of its keys it changed. They stand in journals for good, so none is ever spelt
// otherwise; and each is written down here alone, so that what writes an entry and what
// looks for one later can't mean two things.
//
// The tables and keys are those of the user's files, over which what was recorded is
// laid. How a file is read stays with its reader: a key that it doesn't know is a mistake
// there, and nothing that would make a mistake is ever recorded.
package event

// Action is what happened.
type Action string

// What can be recorded, in the order of a job.
const (
	New       Action = "new"
	Found     Action = "found"
	Cleared   Action = "cleared"
	Graded    Action = "graded"
	Quoted    Action = "quoted"
	Fitted    Action = "fitted"
	Joined    Action = "joined" // of two bags one was made
	Sent      Action = "sent"
	Stripped  Action = "stripped"
	Priced    Action = "priced"
	Approved  Action = "approved"
	Refused   Action = "refused"
	Recalled  Action = "recalled"
	Plated    Action = "plated"
	Back      Action = "back"
	Hung      Action = "hung"
	Unhung    Action = "unhung"
	Broke     Action = "broke"
	Lost      Action = "lost"
	Sold      Action = "sold"
	Bought    Action = "bought"
	Came      Action = "came"
	Failed    Action = "failed"
	Traded    Action = "traded"
	Lock      Action = "lock"
	Unlock    Action = "unlock"
	Ban       Action = "ban"
	Unban     Action = "unban"
	Spent     Action = "spent"
	Note      Action = "note"
	Slot      Action = "slot"      // a position of the set is new, or another than before
	Plater    Action = "plater"    // so is a plater, or what he takes
	Vendor    Action = "vendor"    // who sells is new, or sells otherwise
	Maker     Action = "maker"     // so is somebody who does single works
	Bundle    Action = "bundle"    // several pieces are for sale for one price
	Bundled   Action = "bundled"   // a piece comes out of one
	Unbundled Action = "unbundled" // it is sold by itself after all
	Match     Action = "match"     // positions are seen together
	Avenue    Action = "avenue"    // somewhere to look for a piece
	Trade     Action = "trade"     // a piece may be given for another
	Terms     Action = "terms"     // something else is asked of the whole job
	Removed   Action = "removed"   // what nothing rests on is taken out of the files' sight
	Imported  Action = "imported"  // a table of a spreadsheet was read
	Photo     Action = "photo"     // a picture was taken of a piece
	Keep      Action = "plan"      // a plan is kept as the one that is followed
)

// What is about another entry.
const (
	Undo Action = "undo"
	Redo Action = "redo"
)

// Turns says whether an action is about another entry, which it takes back or brings back.
func (a Action) Turns() bool { return a == Undo || a == Redo }
