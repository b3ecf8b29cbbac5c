package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/testdata/campaign"
)

func whyOf(t *testing.T, st *catalog.State, slot int) *Why {
	t.Helper()
	w, err := AskWhy(context.Background(), st, slot, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// sameByHand solves the whole set anew with a lock on each way's choice. A lock
// can't tell two quotes of one plater and level apart, nor a level from none: of
// the ways it lets in the cheapest counts.
func sameByHand(t *testing.T, name string, st *catalog.State, w *Why) (asked int) {
	t.Helper()
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		c := way.Choice
		lock := catalog.Filter{Slot: c.Slot, Piece: c.Piece, Work: c.Work, Plater: c.Plater, Level: c.Level}
		least := way.Plan
		for k := range w.Alternatives {
			if plan := w.Alternatives[k].Plan; program.Matches(&lock, w.Alternatives[k].Choice) && plan.Has &&
				(!least.Has || plan.Weighed() < least.Weighed()) {
				least = plan
			}
		}
		locked := st.Clone()
		locked.Locks = append(locked.Locks, catalog.Lock{Filter: lock})
		byHand, err := program.Solve(context.Background(), locked, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if byHand.Has != least.Has || (byHand.Has && byHand.Weighed() != least.Weighed()) {
			t.Errorf("%s: with %s the set costs %d (%v), solved by hand %d (%v)", name, plan.Label(st, way.Choice),
				least.Weighed(), least.Has, byHand.Weighed(), byHand.Has)
		}
		sum := catalog.Cents(0)
		for _, c := range way.Reasons {
			sum += c.Cents
		}
		if way.Plan.Has && (sum != way.More || way.More != way.Plan.Expected-w.Advised.Expected ||
			way.Keeps != way.Plan.Keeps-w.Advised.Keeps || way.More < way.Keeps) {
			t.Errorf("%s: %s costs %d more, the causes add up to %d", name, plan.Label(st, way.Choice), way.More, sum)
		}
		asked++
	}
	return asked
}

// TestWhyByHand: every figure of why is what a solve by hand gives.
func TestWhyByHand(t *testing.T) {
	demo := jobs.DemoState(t)
	for _, slot := range []int{0, 4, 5, 13} {
		sameByHand(t, "demo "+demo.Slots[slot].ID, demo, whyOf(t, demo, slot))
	}
	asked := 0
	for seed := range int64(campaign.Cases(30, 60)) {
		st := jobs.Random(seed, 3, jobs.Options{})
		if w := whyOf(t, st, 0); w.Advised.Has {
			asked += sameByHand(t, "random", st, w)
		}
	}
	if asked < campaign.Cases(50, 100) {
		t.Errorf("only %d choices of random jobs were forced", asked)
	}
}

// TestWhyWholeSet: taking the shared piece for one slot fills the other one
// otherwise, and why says so.
func TestWhyWholeSet(t *testing.T) {
	st := jobs.DemoState(t)
	w := whyOf(t, st, 5) // mirror-right; arm-1 fits both mirrors
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		taken := w.Advised.Lines[4].Choice.Piece
		if way.Choice.Piece != taken || !way.Plan.Has {
			continue
		}
		other := false
		for _, c := range way.Reasons {
			other = other || (c.Kind == plan.CauseOther && c.Slot == 4)
		}
		if way.Plan.Lines[4].Choice.Piece == taken || !other {
			t.Errorf("%s: the other mirror keeps the piece, or why does not tell", plan.Label(st, way.Choice))
		}
		return
	}
	t.Error("no way with the piece that hangs on the other mirror")
}
