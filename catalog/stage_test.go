package catalog

import (
	"testing"
	"time"
)

// TestOverdue: late is counted from what he said for the piece, else from his usual days,
// and only while he has it and it is known since when.
func TestOverdue(t *testing.T) {
	st := &State{Platers: []Plater{{Days: 30}}}
	day := func(d int) Val[int] { return Val[int]{V: d, Set: true} }
	sent := Val[time.Time]{V: time.Date(2031, 1, 13, 0, 0, 0, 0, time.UTC), Set: true}
	for name, c := range map[string]struct {
		p    Piece
		want int
	}{
		"within his days":        {Piece{Sent: Sent{Was: true, On: sent, Since: 30}}, 0},
		"a day late":             {Piece{Sent: Sent{Was: true, On: sent, Since: 31}}, 1},
		"late by his own word":   {Piece{Sent: Sent{Was: true, On: sent, Since: 31, Quote: Quote{Days: day(21)}}}, 10},
		"nobody knows the day":   {Piece{Sent: Sent{Was: true, Since: 90}}, 0},
		"it is back":             {Piece{Sent: Sent{Was: true, On: sent, Since: 90}, Stage: StageBack}, 0},
		"plated, still with him": {Piece{Sent: Sent{Was: true, On: sent, Since: 35}, Stage: StagePlated}, 5},
		"never sent":             {Piece{}, 0},
	} {
		if got := c.p.Overdue(st); got != c.want {
			t.Errorf("%s: %d days, want %d", name, got, c.want)
		}
	}
}
