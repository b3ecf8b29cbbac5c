package catalog

import (
	"slices"
	"strings"
	"testing"
)

// TestFitted: a piece is tried on in a slot. What is said of all that it fits, as older files
// do, means all of them, handwork included; a slot it doesn't fit is a mistake.
func TestFitted(t *testing.T) {
	const job = `[job]
title = "x"
[slot.left]
part = "rim"
[slot.right]
part = "rim"
[slot.hook]
[piece.a]
fits = ["rim"]
kind = "original"
metal = "brass"
fitted = FITTED
[piece.a.fit.hook]
hours = 1
`
	for in, want := range map[string][]int{
		`true`: {0, 1, 2}, `false`: nil, `["right"]`: {1}, `["rim"]`: {0, 1}, `["hook", "left"]`: {0, 2}, `[]`: nil,
	} {
		st := mustLoad(t, strings.Replace(job, "FITTED", in, 1), "", Options{})
		if got := st.Pieces[0].Fitted; !slices.Equal(got, want) {
			t.Errorf("fitted = %s: %v, want %v", in, got, want)
		}
		for s := range st.Slots {
			if st.Pieces[0].FittedIn(s) != slices.Contains(want, s) {
				t.Errorf("fitted = %s: slot %d", in, s)
			}
		}
	}
}
