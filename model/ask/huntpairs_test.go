package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/solver"
)

// TestPairsOfOneName: what the user looks out for may be called like what is always looked for.
// Two rims that have nothing to do with each other are worth together what they are one by one.
func TestPairsOfOneName(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces = nil
	for s := range st.Slots {
		p := jobs.TinyPiece([]string{"left", "right"}[s])
		p.Fits, p.Grade, p.Price = []int{s}, jobs.Given[catalog.Centi](90_00), 300_00
		st.Pieces = append(st.Pieces, p)
	}
	st.Job.Target.Floor = jobs.Given[catalog.Centi](70_00)
	for s := range st.Slots {
		st.Slots[s].Target.Floor = st.Job.Target.Floor
	}
	sound := ProfilesFor(st, jobs.Left)[2] // to be plated
	st.Wanted = []catalog.Wanted{{ID: sound.Name, Kind: sound.Kind, Grade: jobs.Given[catalog.Centi](80_00)}}
	h, err := Hunt(context.Background(), st, nil, solver.Settings{})
	if err != nil || !h.Whole || len(h.Finds) != 8 {
		t.Fatalf("%d finds, %v", len(h.Finds), err)
	}
	for _, p := range h.Pairs {
		a, b := &h.Finds[p.A], &h.Finds[p.B]
		t.Errorf("%s for %d, %s for %d: %d together, %d and %d one by one", a.Profile.Name, a.Slot, b.Profile.Name, b.Slot,
			p.Together, a.Worth, b.Worth)
	}
}
