package catalog

import "time"

// Kept is the plan that was last kept, by names: what it is about may be gone.
type Kept struct {
	Lines []KeptLine
	Seq   int       // of the entry that kept it; 0 where it is not from a journal
	On    time.Time // the day it was kept
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
