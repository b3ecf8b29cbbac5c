package ask

import (
	"context"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/jobs"
	"brightset/model/program"
	"brightset/solver"
)

// tightened asks for more of a random job, each in another way.
func tightened(seed int64) *catalog.State {
	st := jobs.Random(seed, 3, jobs.Options{})
	switch seed % 5 {
	case 0:
		st.Job.Budget = jobs.Given(catalog.Cents(20_00 + seed*37%200_00))
	case 1:
		st.Job.Target.Mean = jobs.Given(catalog.Centi(96_00))
	case 2:
		st.Job.Completion = jobs.Given(catalog.Micro(999_999))
	case 3:
		st.Job.WithinDays = jobs.Given(int(seed % 20))
	case 4:
		st.Slots[0].Target.Floor = jobs.Given(catalog.Centi(97_00))
	}
	return st
}

func has(t *testing.T, st *catalog.State) bool {
	t.Helper()
	plan, err := program.Solve(context.Background(), st, solver.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return plan.Has
}

// solvedAgain solves with nothing but the clash, which can't be met, and without each
// of its members, which can.
func solvedAgain(t *testing.T, name string, st *catalog.State, c *Explanation) {
	t.Helper()
	for left := -1; left < len(c.Conflict); left++ {
		only := st.Clone()
		for _, r := range Requirements(st) {
			at := slices.IndexFunc(c.Conflict,
				func(k Requirement) bool { return k.Kind == r.Kind && k.index == r.index })
			if at < 0 || at == left {
				r.drop(only)
			}
		}
		if has(t, only) != (left >= 0) {
			t.Errorf("%s: without member %d of %d: a set is there: %v", name, left, len(c.Conflict), left < 0)
		}
	}
}

// TestConflictsAreMinimal: with all members nothing fits whatever else is dropped,
// without any one of them something does; and what is said to fit does.
func TestConflictsAreMinimal(t *testing.T) {
	kinds, fits := map[string]int{}, 0
	for seed := range int64(150) {
		st := tightened(seed)
		if has(t, st) {
			continue
		}
		c, err := Explain(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if _, st = Takers(st); has(t, st) {
			continue // somebody for a work that nobody does is all it takes
		}
		if len(c.Conflict) == 0 {
			bare := st.Clone()
			for _, r := range Requirements(st) {
				r.drop(bare)
			}
			if has(t, bare) {
				t.Errorf("seed %d: no clash is told, and without requirements there is a set", seed)
			}
			continue
		}
		if !c.Minimal {
			t.Errorf("seed %d: the clash is not minimal", seed)
		}
		solvedAgain(t, jobs.CaseName(seed, 3, "clash"), st, c)
		for _, r := range c.Conflict {
			kinds[r.Kind]++
		}
		for _, g := range c.Relaxations {
			if g.Plan == nil || !g.Plan.Has {
				without := st.Clone()
				g.Requirement.drop(without)
				if has(t, without) {
					t.Errorf("seed %d: giving up %s is enough", seed, g.Requirement.Words)
				}
				continue
			}
			fits++
			without := st.Clone()
			g.Requirement.drop(without)
			if broken := check.Check(without, g.Plan); len(broken) > 0 {
				t.Errorf("seed %d: %s: %v", seed, g.Words, broken)
			}
		}
	}
	for _, kind := range []string{"budget", "mean", "completion", "date", "slot"} {
		if kinds[kind] == 0 {
			t.Errorf("no clash has a %s in it: %v", kind, kinds)
		}
	}
	if fits < 40 {
		t.Errorf("only %d steps back were looked at", fits)
	}
}

// TestGiveUpIsSmallest: a cent less, a hundredth of a grade more, a day less, and
// nothing fits.
func TestGiveUpIsSmallest(t *testing.T) {
	looked := map[string]int{}
	for seed := range int64(150) {
		st := tightened(seed)
		if has(t, st) {
			continue
		}
		c, err := Explain(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range c.Relaxations {
			g := &c.Relaxations[i]
			if g.Plan == nil || !g.Plan.Has || g.State == nil {
				continue
			}
			looked[g.Requirement.Kind]++
			if !has(t, g.State) {
				t.Errorf("seed %d: %q does not fit", seed, g.Words)
			}
			more := g.State.Clone()
			switch g.Requirement.Kind {
			case "budget":
				more.Job.Budget.V--
			case "mean":
				more.Job.Target.Mean.V++
			case "date":
				more.Job.WithinDays.V--
			case "completion":
				more.Job.Completion.V += 100
			case "slot":
				more.Slots[g.Requirement.index].Target.Floor.V++
			}
			if has(t, more) {
				t.Errorf("seed %d: less than %q would do", seed, g.Words)
			}
		}
	}
	for _, kind := range []string{"budget", "mean", "completion", "date", "slot"} {
		if looked[kind] == 0 {
			t.Errorf("no smallest step back from a %s: %v", kind, looked)
		}
	}
}

// TestConflictOfEachKind: hand-made clashes of what the user decided and of pieces.
func TestConflictOfEachKind(t *testing.T) {
	for name, make := range map[string]func() *catalog.State{
		"lock": func() *catalog.State {
			st := jobs.Tiny()
			st.Slots[jobs.Left].Target.Floor = jobs.Given(catalog.Centi(85_00))
			st.Locks = []catalog.Lock{{Filter: catalog.Filter{Slot: jobs.Left, Piece: jobs.Other,
				Work: catalog.WorkAsIs, Plater: catalog.None}}}
			return st
		},
		"ban": func() *catalog.State {
			st := jobs.Tiny()
			st.Bans = []catalog.Ban{{ID: "all", Filter: catalog.Filter{Slot: jobs.Left, Piece: catalog.None,
				Plater: catalog.None}}}
			return st
		},
		"piece": func() *catalog.State {
			st := jobs.Tiny()
			st.Pieces = st.Pieces[jobs.Other : jobs.Other+1]
			return st
		},
		"match": func() *catalog.State {
			st := jobs.Tiny()
			st.Pieces, st.Platers = st.Pieces[jobs.Sold:], nil
			st.Pieces[0].Fits, st.Pieces[1].Fits, st.Pieces[2].Fits = []int{jobs.Left}, []int{jobs.Left},
				[]int{jobs.Right}
			st.Matches = []catalog.Match{{ID: "rims", Slots: []int{jobs.Left, jobs.Right},
				GradeWithin: jobs.Given(catalog.Centi(1_00))}}
			return st
		},
		"breakage": func() *catalog.State {
			st := jobs.Tiny()
			st.Pieces = []catalog.Piece{st.Pieces[jobs.Bare], st.Pieces[jobs.Other]}
			st.Pieces[0].Fits, st.Pieces[1].Fits = []int{jobs.Left}, []int{jobs.Right}
			st.Slots[jobs.Left].MaxBreakage = jobs.Given(catalog.Micro(1))
			return st
		},
	} {
		st := make()
		c, err := Explain(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		solvedAgain(t, name, st, c)
		if !c.Minimal || !slices.ContainsFunc(c.Conflict, func(r Requirement) bool { return r.Kind == name }) {
			t.Errorf("%s: clash %v, minimal %v", name, c.Conflict, c.Minimal)
		}
	}
}
