package catalog

import "time"

// Kept is the plan that was last kept, by names: what it is about may be gone.
type Kept struct {
	Lines []KeptLine
	Share []KeptShare // of what it has in common with other jobs' plans; none where it was made alone
	Seq   int         // of the entry that kept it; 0 where it is not from a journal
	On    time.Time   // the day it was kept
	From  Origin
}

// KeptLine is one line of a kept plan.
type KeptLine struct {
	Slot string
	KeptChoice
	Fallback *KeptChoice
}

// KeptChoice is a choice by names. Piece is the key that is unique over both files.
type KeptChoice struct {
	Piece    string
	Work     string
	Plater   string // "" unless plated
	Level    string
	Expected Cents // of the line
}

// KeptShare is what a job pays of something that its plan has in common with those of other
// jobs, until it is recorded as paid.
type KeptShare struct {
	ID    string
	Kind  ShareKind
	Of    string // the plater or the bundle
	Cents Cents
}

// ShareKind says what jobs share.
type ShareKind string

// What jobs share that is booked when it happens.
const (
	ShareFreight ShareKind = "freight" // of a lot, there and back
	ShareLeast   ShareKind = "minimum" // what a lot lacks of its least charge
	ShareBundle  ShareKind = "bundle"  // its price
)

var shareWords = []string{string(ShareFreight), string(ShareLeast), string(ShareBundle)}

// ShareOf finds what the job pays of one thing; nil where it pays all of it itself. A plan
// that shares nothing has none.
func (k *Kept) ShareOf(kind ShareKind, of string) *KeptShare {
	if k == nil {
		return nil
	}
	for i := range k.Share {
		if s := &k.Share[i]; s.Kind == kind && s.Of == of {
			return s
		}
	}
	return nil
}
