package ask

import (
	"reflect"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/catalog/standard"
	"brightset/model/internal/jobs"
)

// TestTwins: slots are twins until anything is asked of one that is not asked of the other. Every field of a
// slot is either changed here or listed as nothing that a figure hangs on.
func TestTwins(t *testing.T) {
	neutral := []string{"ID", "Name", "Part", "AreaWritten", "Own", "From"} // Part: below, by price
	changes := map[string]func(*catalog.Slot){
		"Area":        func(s *catalog.Slot) { s.Area = jobs.Set(s.Area.Or(0) + 1) },
		"Weight":      func(s *catalog.Slot) { s.Weight++ },
		"Quantity":    func(s *catalog.Slot) { s.Quantity++ },
		"Target":      func(s *catalog.Slot) { s.Target.Floor = jobs.Set(s.Target.Floor.Or(0) + 1) },
		"Rescue":      func(s *catalog.Slot) { s.Rescue = jobs.Set(s.Rescue.Or(0) + 1) },
		"RescueDays":  func(s *catalog.Slot) { s.RescueDays = jobs.Set(s.RescueDays.Or(0) + 1) },
		"MaxBreakage": func(s *catalog.Slot) { s.MaxBreakage = jobs.Set(s.MaxBreakage.Or(0) + 1) },
		"Keep":        func(s *catalog.Slot) { s.Keep++ },
		"Bears":       func(s *catalog.Slot) { s.Bears = !s.Bears },
		"Service":     func(s *catalog.Slot) { s.Service = standard.Service(1 + s.Service%5) },
	}
	for f := range reflect.TypeFor[catalog.Slot]().NumField() {
		name := reflect.TypeFor[catalog.Slot]().Field(f).Name
		change := changes[name]
		st := twoAlike()
		if change == nil {
			if !slices.Contains(neutral, name) {
				t.Errorf("%s of a slot: is it nothing to go by?", name)
			}
			continue
		}
		change(&st.Slots[0])
		if slices.Contains(twins(st, 0), 1) {
			t.Errorf("slots with different %s are twins", name)
		}
	}
	fits := func(_ *catalog.State, p *catalog.Piece) { p.Fits = []int{0} }
	handwork := func(_ *catalog.State, p *catalog.Piece) { p.Fit = []catalog.Fit{{Slot: 0, Cap: 100_00}} }
	tried := func(_ *catalog.State, p *catalog.Piece) { p.Kind, p.Fitted = catalog.Reproduction, []int{1} }
	for name, change := range map[string]func(st *catalog.State, p *catalog.Piece){
		"a piece that fits one": fits, "handwork in one": handwork, "a reproduction tried in one": tried,
		"a price for one part": priceOfPart,
	} {
		st := twoAlike()
		change(st, &st.Pieces[0])
		if slices.Contains(twins(st, 0), 1) {
			t.Errorf("with %s they are twins", name)
		}
	}
	if !slices.Contains(twins(twoAlike(), 0), 1) {
		t.Error("slots that are alike are no twins")
	}
}

// priceOfPart has a level that asks something else for the part of one slot.
func priceOfPart(st *catalog.State, p *catalog.Piece) {
	cost := make([]catalog.Val[catalog.Cents], len(st.Tables.Metals))
	cost[p.Metal] = jobs.Set(catalog.Cents(60_00))
	st.Slots[0].Part = "left lamp"
	level := &st.Platers[0].Levels[0]
	level.Prices = append(slices.Clone(level.Prices), catalog.Price{Of: "left lamp", Cost: cost})
}

// twoAlike is a job whose two slots nothing tells apart but their names.
func twoAlike() *catalog.State {
	st := jobs.Random(9000, 2, jobs.Options{On: []string{"shared"}, Off: []string{"lock", "slot-target", "fit", "misfit"}})
	id := st.Slots[1].ID
	st.Slots[1] = st.Slots[0]
	st.Slots[1].ID = id
	st.Bans, st.Matches = nil, nil
	for i := range st.Pieces {
		st.Pieces[i].Fits, st.Pieces[i].Fit = []int{0, 1}, nil
	}
	return st
}
