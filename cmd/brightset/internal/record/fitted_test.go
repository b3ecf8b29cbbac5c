package record

import (
	"os"
	"slices"
	"strings"
	"testing"

	"brightset/catalog"
)

// TestFittedIn: a piece is tried on in one slot, which has to be said where it fits several
// and no plan says it; what was noted of another stays, and so does what older files say of
// all of them.
func TestFittedIn(t *testing.T) {
	const job = `[job]
title = "x"
[slot.left]
[slot.right]
[slot.hook]
[piece.rim]
fits = ["left", "right"]
kind = "original"
metal = "brass"
grade = 80
[piece.hook]
fits = ["hook"]
kind = "original"
metal = "brass"
grade = 80
`
	open := func(text string) *catalog.Recorder {
		dir := swift(t)
		if err := os.WriteFile(dir+"/job.toml", []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return recorderAt(t, dir+"/job.toml")
	}
	d := open(job)
	if err := do(t, d, "fitted", Facts{Target: "rim"}); err == nil || !strings.Contains(err.Error(), "--slot left") {
		t.Errorf("tried on anywhere: %v", err)
	}
	if err := do(t, d, "fitted", Facts{Target: "rim", Slot: "hook"}); err == nil ||
		!strings.Contains(err.Error(), "it fits left, right") {
		t.Errorf("tried on where it doesn't fit: %v", err)
	}
	must(t, d, step{"fitted", Facts{Target: "rim", Slot: "right"}}, step{"fitted", Facts{Target: "hook"}})
	if p := pieceOf(t, d, "rim"); p.FittedIn(0) || !p.FittedIn(1) || !pieceOf(t, d, "hook").FittedIn(2) {
		t.Errorf("%v", p.Fitted)
	}
	must(t, d, step{"fitted", Facts{Target: "rim", Slot: "left"}})
	if p := pieceOf(t, d, "rim"); !slices.Equal(p.Fitted, []int{0, 1}) {
		t.Errorf("tried on in both: %v", p.Fitted)
	}
	d = open(strings.Replace(job, "[piece.hook]", "fitted = true\n[piece.hook]", 1))
	err := do(t, d, "fitted", Facts{Target: "rim", Slot: "left"})
	if p := pieceOf(t, d, "rim"); err == nil || !slices.Equal(p.Fitted, []int{0, 1}) {
		t.Errorf("of an older file: %v, %v", err, p.Fitted)
	}
}
