package paper

import (
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
)

// TestTodoByHand: a bundle is bought before its piece is sent, two works of the shop's on
// one piece are one piece on the bench, and what is done to the finished
// piece, as fitting, waits until it is plated.
func TestTodoByHand(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 2), Pieces: make([]catalog.Piece, 2),
		Platers: make([]catalog.Plater, 1),
		Vendors: make([]catalog.Vendor, 1), Bundles: []catalog.Bundle{{Vendor: 0, Price: 90_00}}}
	st.Pieces[0] = catalog.Piece{Side: catalog.Vendors, Vendor: 0, Bundle: 0, Chance: catalog.One, Quantity: 1}
	st.Pieces[1] = catalog.Piece{Side: catalog.Customers, Vendor: catalog.None, Bundle: catalog.None, Chance: catalog.One,
		Quantity: 1, Fitted: []int{1}}
	st.Tables.Works = make([]catalog.Work, 6)
	st.Tables.Works[5].Order = catalog.Val[int]{V: 60, Set: true}
	own := func(work int, cents catalog.Cents) plan.Part {
		return plan.Part{Work: work, Doer: plan.ByShop, Maker: catalog.None, Cost: cents}
	}
	line := func(slot int, parts ...plan.Part) plan.Line {
		return plan.Line{Slot: slot, Choice: &plan.Choice{Slot: slot, Piece: slot, Work: catalog.WorkRepair, Plater: 0,
			Quote: catalog.None, Plate: 40_00, Parts: parts}}
	}
	pl := &plan.Plan{Of: st, Lines: []plan.Line{line(0, own(3, 7_00), own(4, 5_00), own(5, 9_00)),
		line(1, own(catalog.None, 20_00))}}
	var kinds []ActKind
	for _, a := range Todo(pl) {
		kinds = append(kinds, a.Kind)
		if a.Kind == ActBench && (a.Count != 1 || a.Cents != 12_00) {
			t.Errorf("on the bench: %d pieces for %d", a.Count, a.Cents)
		}
	}
	if want := []ActKind{ActBuyFirst, ActBench, ActSend}; !slices.Equal(kinds, want) {
		t.Errorf("%v, want %v", kinds, want)
	}
}

// TestTodoLeavesReserveAlone: a piece at a plater's that a line falls back on is neither
// stopped nor taken back, and he is to wait with it if he asks; one that no line has anything to do with is.
func TestTodoLeavesReserveAlone(t *testing.T) {
	for _, stage := range []catalog.Stage{catalog.StageSeen, catalog.StageStripped, catalog.StagePriced} {
		st := &catalog.State{
			Slots:   make([]catalog.Slot, 1),
			Pieces:  make([]catalog.Piece, 2),
			Platers: make([]catalog.Plater, 1),
		}
		st.Pieces[0] = catalog.Piece{Stage: catalog.StageHung, Bundle: catalog.None, Vendor: catalog.None}
		st.Pieces[1] = catalog.Piece{
			Stage:  stage,
			Sent:   catalog.Sent{Was: true, Count: 1},
			Bundle: catalog.None,
			Vendor: catalog.None,
		}
		hangs := &plan.Choice{Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
		sent := &plan.Choice{Piece: 1, Work: catalog.WorkReplate, Sent: true, Quote: catalog.None}
		pl := &plan.Plan{Of: st, Lines: []plan.Line{{Choice: hangs, Fallback: sent}}}
		acts := Todo(pl)
		if stage == catalog.StagePriced { // he waits for an answer
			if len(acts) != 1 || acts[0].Kind != ActPause || acts[0].Pieces[0] != 1 {
				t.Errorf("%v, in reserve: %+v", stage, acts)
			}
		} else if len(acts) != 0 {
			t.Errorf("%v, in reserve: %+v", stage, acts)
		}
		pl.Lines[0].Fallback = nil
		want := ActRecall
		if stage == catalog.StagePriced {
			want = ActStop
		}
		if acts := Todo(pl); len(acts) != 1 || acts[0].Kind != want || acts[0].Pieces[0] != 1 {
			t.Errorf("%v, not used: %+v", stage, acts)
		}
	}
}

// TestBareOnTheShelf: a piece that came back stripped is kept from rusting until it goes out
// again; one that is bare at a plater's is his to look after.
func TestBareOnTheShelf(t *testing.T) {
	st := &catalog.State{Slots: make([]catalog.Slot, 1), Pieces: make([]catalog.Piece, 3),
		Platers: make([]catalog.Plater, 1)}
	hangs := &plan.Choice{Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None}
	st.Pieces[0] = catalog.Piece{Stage: catalog.StageHung, Bundle: catalog.None, Vendor: catalog.None}
	st.Pieces[1] = catalog.Piece{Stage: catalog.StageStripped, Bundle: catalog.None, Vendor: catalog.None}
	st.Pieces[2] = catalog.Piece{Stage: catalog.StageStripped, Bundle: catalog.None, Vendor: catalog.None,
		Sent: catalog.Sent{Was: true, Count: 1}}
	acts := Todo(&plan.Plan{Of: st, Lines: []plan.Line{{Choice: hangs}}})
	if len(acts) != 2 || acts[0].Kind != ActRecall || acts[1].Kind != ActShelve || len(acts[1].Pieces) != 1 ||
		acts[1].Pieces[0] != 1 {
		t.Errorf("%+v", acts)
	}
}
