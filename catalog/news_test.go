package catalog

import (
	"reflect"
	"testing"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// twoStates are a state with a bag of five clips, a piece on its way and one on the bench,
// and a copy of it to go on from.
func twoStates() (before, st *State) {
	of := func() *State {
		return &State{
			Job: Job{Spent: []Spent{{ID: "s1", Cents: 30_00}}, SpentSum: 30_00},
			Pieces: []Piece{{ID: "clips", Quantity: 5}, {ID: "arm", Quantity: 1},
				{ID: "rim", Quantity: 1, Sent: Sent{Was: true, Lot: "1"}}},
			Warnings: []Warning{{Message: "old"}},
		}
	}
	return of(), of()
}

// TestNewsOf: an entry's news are the sums it adds, the pieces it moves, the rest of a bag
// that it parts, and the warnings it brings; what was there before is none.
func TestNewsOf(t *testing.T) {
	before, st := twoStates()
	if got := NewsOf(before, st, 7); !reflect.DeepEqual(got, News{}) {
		t.Errorf("nothing happened, yet %+v", got)
	}
	st.Job.Spent = append(st.Job.Spent, Spent{ID: "s2", Cents: 12_00})
	st.Job.SpentSum = 42_00
	st.Pieces[0].Quantity = 2
	st.Pieces[1].Stage = StageHung
	st.Pieces = append(st.Pieces, Piece{ID: "clips-2", Quantity: 3}, Piece{ID: "new", Quantity: 1},
		Piece{ID: "clips-3", Quantity: 4}, Piece{ID: "clips-4", Quantity: 3, InShop: true})
	st.Warnings = append(st.Warnings, Warning{Message: "fresh"})
	want := News{
		Cents: 12_00, Spent: []Spent{{ID: "s2", Cents: 12_00}}, Warnings: []Warning{{Message: "fresh"}},
		Pieces: []PieceNews{{1, &before.Pieces[1], false}, {3, &before.Pieces[0], true}},
	}
	if got := NewsOf(before, st, 7); !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}

// TestNewsOfJoined: what is sent with a lot that is on its way joins it, once however many
// pieces go; a lot of its own joins none, nor does what another action does to a sent piece.
func TestNewsOfJoined(t *testing.T) {
	for name, c := range map[string]struct {
		lot    string
		action event.Action
		want   []JoinedLot
	}{
		"the same lot":    {"1", event.Sent, []JoinedLot{{Lot: "1", With: []int{2}}}},
		"a new lot":       {"2", event.Sent, nil},
		"a lot unnamed":   {"", event.Sent, nil},
		"another's entry": {"1", event.Plated, nil},
	} {
		before, st := twoStates()
		before.Pieces[2].Sent.Lot = "1"
		for i := range 2 {
			st.Pieces[i].Sent = Sent{Was: true, Lot: c.lot}
		}
		st.Record = &Record{Entries: []journal.Entry{{Seq: 7, Action: c.action}}}
		if got := NewsOf(before, st, 7).Joined; !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}
