package choice

import (
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestKeeps: an own piece that breaks once in five keeps four fifths of what it is worth to
// the owner, and costs what it would cost if nobody minded; one that stands in for it keeps
// the rest but for its own risk; any other keeps nothing.
func TestKeeps(t *testing.T) {
	st := jobs.Tiny()
	st.Slots[jobs.Left].Keep = 100_00
	own := draft{work: catalog.WorkReplate, plater: jobs.North, quote: catalog.None, plate: 80_00, breakage: 200_000}
	minded := own.choice(st, jobs.Left, jobs.Hazy)
	st.Pieces[jobs.Hazy].Off = true
	k := own.choice(st, jobs.Left, jobs.Hazy)
	if minded.Keeps != 0 || k.Keep != 100_00 || k.Keeps != 80_00 || k.ExpectedCost != minded.ExpectedCost ||
		k.Cash != minded.Cash {
		t.Errorf("keeps %d of %d, paid %d and %d, cash %d and %d", k.Keeps, k.Keep,
			k.ExpectedCost, minded.ExpectedCost, k.Cash, minded.Cash)
	}
	st.Pieces[jobs.Other].Off = true
	f := plan.Choice{Slot: jobs.Left, Piece: jobs.Other, Plater: catalog.None, Fails: 100_000, Keep: 100_00, Keeps: 90_00}
	if got := Keeps(&k, &f); got != 80_00+18_00 { // 80.00 + 0.2 x 90.00
		t.Errorf("with its stand-in keeps %d", got)
	}
	if got := Weighed(st, &k, nil); got != k.ExpectedCost+catalog.Of(200_000, Rescue(st, jobs.Left))-80_00 {
		t.Errorf("weighed %d", got)
	}
}
