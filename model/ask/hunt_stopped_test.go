package ask

import (
	"context"
	"testing"

	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/solver"
)

// TestHuntFinishesWherePlanDoes: the program with the finds is larger than the one of the
// plan; where a hunt gets no answer from it, it is not given up if the plan by itself is
// found.
func TestHuntFinishesWherePlanDoes(t *testing.T) {
	st := jobs.DemoState(t)
	plan := solved.Cheapest(t, st)
	h, err := newHunt(jobs.OutOfTime(t), st, nil, solver.Settings{}) // never made
	if err != nil {
		t.Fatal(err)
	}
	base, err := h.base(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if base.Status != solver.Optimal || base.Weighed() != plan.Weighed() {
		t.Errorf("the hunt's plan is %s, %d; the plan is %d", base.Status, base.Weighed(), plan.Weighed())
	}
}

// TestHuntSaysWhatIsNotKnown: a find that no set was found with in time makes the hunt
// one that is not whole, and is not told as worth nothing.
func TestHuntSaysWhatIsNotKnown(t *testing.T) {
	st := jobs.DemoState(t)
	h, err := newHunt(context.Background(), st, nil, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	base, err := h.ask(context.Background())
	if err != nil || !base.Has {
		t.Fatal(err)
	}
	for i := range h.finds {
		if finds, known, err := h.valueAll(jobs.OutOfTime(t), base, []int{i}); err != nil || len(finds) == 0 && known {
			t.Errorf("find %d: out of time, and yet known to be worth nothing (%v)", i, err)
		}
	}
}
