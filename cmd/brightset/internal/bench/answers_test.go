package bench

import (
	"context"
	"testing"

	"brightset/catalog"
)

// TestGoneAway: who asks and goes away before the answer is there leaves no half answer to
// those who ask after him.
func TestGoneAway(t *testing.T) {
	s, _ := server(demo(t), "", "")
	st, err := catalog.Load(s.opt.Job, catalog.Options{Today: s.opt.Now()})
	if err != nil {
		t.Fatal(err)
	}
	stay := context.Background()
	if _, err := s.plan(stay, st); err != nil { // it is known before he asks
		t.Fatal(err)
	}
	gone, leave := context.WithCancel(stay)
	leave()
	s.beside(gone, st)
	s.curveOf(gone, st)
	s.othersOf(gone, st)
	s.moneyOf(gone, st)
	if a := &s.answers; a.rejected != nil || a.bindings != nil || a.curve != nil || a.others != nil || a.risk != nil ||
		a.stops != nil {
		t.Error("what was cut short is kept for everybody")
	}
	_, c, err := s.curveOf(stay, st)
	if err != nil || len(c.Points) < 2 || s.answers.curve != c {
		t.Error("who stays is given half the curve, or it isn't kept", err)
	}
}
