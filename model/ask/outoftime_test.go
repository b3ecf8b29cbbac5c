package ask

import (
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/internal/solved"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"
	"brightset/solver"
)

// TestOutOfTime: whatever is asked once time is up gets an answer that says so, and no
// choices are worked out for it.
func TestOutOfTime(t *testing.T) {
	st, set, ctx := jobs.DemoState(t), solver.Settings{}, jobs.OutOfTime(t)
	pl := solved.Cheapest(t, st)
	stopped := func(p *plan.Plan, err error) (bool, error) {
		return p != nil && p.Status == solver.Stopped && p.Stop == solver.TimeLimit && !p.Has, err
	}
	for name, ask := range map[string]func() (marked bool, err error){
		"plan":  func() (bool, error) { return stopped(program.Solve(ctx, st, set)) },
		"best":  func() (bool, error) { return stopped(program.Best(ctx, st, set)) },
		"least": func() (bool, error) { return stopped(DoLeast(ctx, st, set)) },
		"why":   func() (bool, error) { w, err := AskWhy(ctx, st, 0, set); return !w.Advised.Has, err },
		"frontier": func() (bool, error) {
			c, err := Frontier(ctx, st, 100, set)
			return !c.Whole && c.NoPlan != nil, err
		},
		"hunt": func() (bool, error) { h, err := Hunt(ctx, st, nil, set); return !h.Whole && !h.Plan.Has, err },
		"leads": func() (bool, error) {
			_, whole, err := Leads(ctx, pl, set)
			return !whole || !usesLead(pl), err
		},
		"find-out": func() (bool, error) { _, whole, err := InformationValues(ctx, pl, set); return !whole, err },
		"strip":    func() (bool, error) { _, whole, err := StripFirst(ctx, pl, set); return !whole, err },
		"stops":    func() (bool, error) { _, whole, err := StopPrices(ctx, pl, set); return !whole, err },
		"rejected": func() (bool, error) {
			_, whole, err := RejectedPieces(ctx, pl, false, set)
			return !whole, err
		},
		"rules":   func() (bool, error) { _, whole, err := pricesOfRules(ctx, t, st, pl, set); return !whole, err },
		"explain": func() (bool, error) { c, err := Explain(ctx, st, set); return c.Stopped, err },
		"simulate": func() (bool, error) {
			s := risk.Simulate(ctx, pl, 100, 1)
			return !s.Whole() && s.Runs == 0, nil
		},
		"one spare": func() (bool, error) {
			two, _, err := program.SharedSpares(ctx, st, set)
			return two.Status == solver.Stopped, err
		},
	} {
		before := choice.Derived.Load()
		marked, err := ask()
		if err != nil || !marked {
			t.Errorf("%s: out of time, and it doesn't say so (%v)", name, err)
		}
		if n := choice.Derived.Load() - before; n > 0 && name != "one spare" {
			t.Errorf("%s: choices for %d slots were worked out though time was up", name, n)
		}
	}
}

func usesLead(p *plan.Plan) bool {
	return usedIn(p, func(c *plan.Choice) bool { return c.Chance < catalog.One })
}

// TestChoicesWorkedOutOnce: what is asked of one figure after the other works out the
// choices for the slots that a figure has to do with, never all of them again.
func TestChoicesWorkedOutOnce(t *testing.T) {
	st := jobs.DemoState(t)
	plan := solved.Cheapest(t, st)
	before := choice.Derived.Load()
	figures := openToStripping(plan, choice.Choices(st))
	if n := choice.Derived.Load() - before; n > int64(len(st.Slots)) {
		t.Errorf("listing %d figures worked out the choices for %d slots", len(figures), n)
	}
	most := int64(len(st.Slots))
	for i := range figures {
		for _, w := range figures[i].ways {
			for s := range st.Slots {
				if w.gone != nil && choice.FitsSlot(&st.Pieces[figures[i].Piece], s) {
					most++
				}
			}
		}
	}
	before = choice.Derived.Load()
	if _, whole, err := StripFirst(jobs.Within(t, 10*minute), plan, solver.Settings{}); err != nil || !whole {
		t.Fatal(whole, err)
	}
	if n := choice.Derived.Load() - before; n > most {
		t.Errorf("%d figures: choices worked out for %d slots, %d are enough", len(figures), n, most)
	}
	sent := int64(0)
	for i := range plan.Lines {
		if c := plan.Lines[i].Choice; c.Plated() {
			for s := range st.Slots {
				if choice.FitsSlot(&st.Pieces[c.Piece], s) {
					sent++ // without it
				}
			}
			sent++ // its terms
		}
	}
	before = choice.Derived.Load()
	if _, whole, err := StopPrices(jobs.Within(t, 10*minute), plan, solver.Settings{}); err != nil || !whole {
		t.Fatal(whole, err)
	}
	if n := choice.Derived.Load() - before; n > int64(len(st.Slots))+sent {
		t.Errorf("prices at which to stop: choices worked out for %d slots, %d are enough", n,
			int64(len(st.Slots))+sent)
	}
}
