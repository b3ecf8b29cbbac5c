package ask

import (
	"reflect"
	"testing"

	"brightset/catalog"
	"brightset/model/plan"
)

// someFinds are finds of one slot used alike, one used otherwise, one worth less, one of
// another slot, and one whose worth is a guess.
func someFinds() *Hunted {
	plated := func(plater int, level string) *plan.Choice {
		return &plan.Choice{Work: catalog.WorkReplate, Plater: plater, Level: level}
	}
	asIs := &plan.Choice{Work: catalog.WorkAsIs, Plater: catalog.None}
	return &Hunted{Finds: []Find{
		{Slot: 0, Worth: 90_00, Metal: 2, Choice: plated(0, "show")},
		{Slot: 0, Worth: 90_00, Metal: 2, Choice: asIs},
		{Slot: 1, Worth: 90_00, Metal: 2, Choice: plated(0, "show")},
		{Slot: 0, Worth: 90_00, Metal: 2, Choice: plated(0, "show")},
		{Slot: 0, Worth: 80_00, Metal: 2, Choice: plated(0, "show")},
		{Slot: 0, Worth: 90_00, Metal: 1, Choice: plated(1, "show")},
		{Slot: 0, Worth: 90_00, Metal: 2, Choice: plated(0, "driver")},
		{Slot: 2, Worth: 90_00, Metal: 1, Choice: &plan.Choice{Work: catalog.WorkClean, Plater: catalog.None}},
		{Slot: 3, Worth: 90_00, Metal: 3, Choice: asIs},
		{Slot: 3, Worth: 90_00, Metal: 4, Choice: &plan.Choice{Work: catalog.WorkAsIs, Plater: catalog.None, Level: "x"}},
		{Slot: 0, Worth: 90_00, Metal: 2, Choice: plated(0, "show"), Stopped: true},
	}}
}

// TestHuntRows: only finds for one slot, of one worth, with the same done to them by the
// same plater at the same level, make one row: not one of which that is a guess with one of
// which it is proven.
func TestHuntRows(t *testing.T) {
	h := someFinds()
	var got [][]int
	for _, row := range h.Rows() {
		var places []int
		for _, f := range row {
			for i := range h.Finds {
				if f == &h.Finds[i] {
					places = append(places, i)
				}
			}
		}
		got = append(got, places)
	}
	if want := [][]int{{0, 3}, {1}, {2}, {4}, {5}, {6}, {7}, {8, 9}, {10}}; !reflect.DeepEqual(got, want) {
		t.Errorf("rows %v, want %v", got, want)
	}
}

// TestMetalsTaken: the metal matters where a find is plated or polished, not where it hangs
// as it is; each slot is named once.
func TestMetalsTaken(t *testing.T) {
	want := []MetalTaken{{2, []int{0, 1}}, {1, []int{0, 2}}}
	if got := someFinds().MetalsTaken(); !reflect.DeepEqual(got, want) {
		t.Errorf("metals %+v, want %+v", got, want)
	}
}
