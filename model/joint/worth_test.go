package joint

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/solver"
)

// wantsLamp is a job that wants a lamp: for 10.00 out of the shop's drawers, or elsewhere at a price.
func wantsLamp(price catalog.Cents) *catalog.State {
	st := jobs.Tiny()
	st.Slots = st.Slots[:1]
	st.Pieces = []catalog.Piece{jobs.TinyPiece("drawer"), jobs.TinyPiece("bought")}
	st.Pieces[0].InShop, st.Pieces[0].Side, st.Pieces[0].Price = true, catalog.Shops, 10_00
	st.Pieces[1].Price = price
	return st
}

// TestWorthOfWhatCouldBeGiven: the first job could trade the piece that both want for one of its
// other slot. Once it hangs on the second job it can't: the lamp costs 100.00 instead of 10.00, and
// no credit makes up for some of that.
func TestWorthOfWhatCouldBeGiven(t *testing.T) {
	first, second := wantsLamp(100_00), wantsLamp(80_00)
	bell := first.Slots[0]
	bell.ID, bell.Name = "bell", "bell"
	first.Slots = append(first.Slots, bell)
	first.Pieces = append(first.Pieces, jobs.TinyPiece("bell"))
	first.Pieces[0].Fits, first.Pieces[1].Fits, first.Pieces[2].Fits = []int{0}, []int{0}, []int{1}
	first.Pieces[2].Price = 50_00
	first.Trades = []catalog.Trade{{ID: "swap", Give: 0, Get: 2, Credit: 60_00}}
	for _, st := range []*catalog.State{first, second} {
		for i := range st.Pieces {
			st.Pieces[i].Grade, st.Pieces[i].Metal = jobs.Given(catalog.Centi(90_00)), catalog.None
		}
	}
	ctx := context.Background()
	out, err := Solve(ctx, []*catalog.State{first, second}, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	list, err := Worths(ctx, out, solver.Settings{})
	if err != nil || len(list) != 1 || len(list[0].Jobs) != 2 {
		t.Fatalf("%v: %+v", err, list)
	}
	for j, want := range []catalog.Cents{90_00, 70_00} {
		if w := list[0].Jobs[j]; !w.Looked || w.Vital || w.Cents != want {
			t.Errorf("job %d: %+v, want %d", j+1, w, want)
		}
	}
}
