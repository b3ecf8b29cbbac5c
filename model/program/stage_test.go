package program

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/model/check"
	"brightset/model/internal/adapter"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestStagesAgainstBrute: in the middle of a job the least total is that of the
// exhaustive search, and the check confirms the plan.
func TestStagesAgainstBrute(t *testing.T) {
	feasible, used := 0, map[catalog.Stage]int{}
	all := campaign.Cases(1400, 1400)
	for seed := range int64(all) {
		st := jobs.StagedState(seed, 1+int(seed%4))
		if _, ok := solveAndTry(t, st); !ok {
			continue
		}
		feasible++
		pl, err := Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range pl.Lines {
			for _, c := range []*plan.Choice{l.Choice, l.Fallback} {
				if c != nil && (c.Sent || st.Pieces[c.Piece].Stage != catalog.StageSeen) {
					used[st.Pieces[c.Piece].Stage]++
				}
			}
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
	if feasible < all/4 {
		t.Errorf("only %d jobs can be done", feasible)
	}
	for stage := catalog.StageSeen; stage <= catalog.StageHung; stage++ {
		if used[stage] < all/50 {
			t.Errorf("%d pieces %s in plans", used[stage], stage)
		}
	}
	for stage := catalog.StageSold; stage <= catalog.StageBroken; stage++ {
		if used[stage] > 0 {
			t.Errorf("%d pieces that are %s in plans", used[stage], stage)
		}
	}
}

// TestStagesAgainstCheck: the search and the check state the rules apart from each
// other, and agree on which set is the cheapest.
func TestStagesAgainstCheck(t *testing.T) {
	feasible, all := 0, campaign.Cases(80, 120)
	for seed := range int64(all) {
		st := jobs.StagedState(2000+seed, 1+int(seed%2))
		sets := 1
		for s := range st.Slots {
			n := len(adapter.Choices(st, s))
			sets *= n * (n + 1)
		}
		if sets > 12_000 {
			continue // too many to look through
		}
		all := &naive{st: st}
		all.extend(0, nil)
		total, ok, _ := adapter.Cheapest(st)
		if ok != all.has || ok && total != all.total {
			t.Errorf("seed %d: search %d %t, enumeration under the check %d %t", 2000+seed, total, ok, all.total,
				all.has)
		}
		if ok {
			feasible++
		}
	}
	if feasible < all/10 {
		t.Errorf("only %d jobs can be done", feasible)
	}
}

// TestStagesChoices: in the middle of a job every slot has the choices that the check
// derives, with the same figures.
func TestStagesChoices(t *testing.T) {
	for seed := range int64(campaign.Cases(160, 300)) {
		adapter.CompareChoices(t, jobs.StagedState(seed, 1+int(seed%6)))
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// TestDriftDecides: what goes to a plater later than what it has to match may be off by his
// drift. That changes plans, and the check names the one made without it.
func TestDriftDecides(t *testing.T) {
	changed, named := 0, 0
	for seed := range int64(campaign.Cases(240, 4000)) {
		st := oneHangs(seed)
		free := st.Clone()
		for q := range free.Platers {
			free.Platers[q].Drift = 0
		}
		least, feasible, _ := adapter.Cheapest(st)
		without, possible, pl := adapter.Cheapest(free)
		if feasible == possible && least == without {
			continue
		}
		changed++
		if slices.ContainsFunc(check.Check(st, pl), func(v check.Violation) bool { return v.Rule == "match-tone" }) {
			named++
		}
		if solveAndTry(t, st); t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
	if changed < 4 || named != changed {
		t.Errorf("drift changes %d plans, and the check names %d of them", changed, named)
	}
}

// oneHangs is a random job in which a piece that a plater sent back hangs, and others that
// have to match it in tone are still to be plated.
func oneHangs(seed int64) *catalog.State {
	st := jobs.Random(seed, 2+int(seed%2), jobs.Options{On: []string{"match-tone", "second-plater", "fresh"},
		Off: []string{"days", "completion", "budget-outlay", "budget-expected", "budget-quote", "match-grade", "lock"}})
	r := rand.New(rand.NewPCG(uint64(seed), 23))
	m := &st.Matches[0]
	for i := range st.Pieces {
		if p := &st.Pieces[i]; slices.Contains(p.Fits, m.Slots[0]) && p.Quantity >= st.Slots[m.Slots[0]].Quantity {
			q := r.IntN(2)
			jobs.SentTo(p, q, catalog.StageHung)
			p.HungIn, p.Grade, p.Fresh, p.Findings = m.Slots[0], jobs.Set[catalog.Centi](95_00), jobs.Set(true), nil
			p.Tone = jobs.Set(st.Platers[q].Levels[0].Tone.Or(0) + jobs.Between[catalog.Centi](r, -30, 30))
			break
		}
	}
	for q := range st.Platers {
		st.Platers[q].Drift = jobs.Between[catalog.Centi](r, 20, 1_50)
	}
	return st
}
