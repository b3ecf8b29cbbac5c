package model

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// randomStages puts a random job in the middle of things.
func randomStages(r *rand.Rand, st *catalog.State) {
	if randomChance(r, 60) {
		st.Job.Elapsed = randomFrom(r, 1, 40)
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		switch roll := r.IntN(100); {
		case roll < 7:
			p.Stage = []catalog.Stage{catalog.StageBroken, catalog.StageLost, catalog.StageSold}[r.IntN(3)]
		case roll < 20 && p.InShop:
			p.Elsewhere = true
		case roll < 16:
			p.Stage = []catalog.Stage{catalog.StageStripped, catalog.StagePriced}[r.IntN(2)]
		case roll < 32:
			sendOff(r, st, i)
			comeBack(r, p)
		case roll < 52:
			sendOff(r, st, i)
		case roll < 60:
			hang(r, st, i)
		}
	}
	for i := range st.Locks { // some that were kept already
		if l := &st.Locks[i]; l.Piece != catalog.None && randomChance(r, 60) {
			l.Work = []string{catalog.WorkReplate, catalog.WorkRepair, catalog.WorkClean}[r.IntN(3)]
		}
	}
}

func comeBack(r *rand.Rand, p *catalog.Piece) {
	p.Stage, p.Findings = catalog.StageBack, nil
	p.Grade, p.Fresh, p.Days, p.Chance = given(randomFrom(r, catalog.Centi(50_00), 98_00)), given(true), given(0), catalog.One
}

func sendOff(r *rand.Rand, st *catalog.State, i int) {
	p := &st.Pieces[i]
	q := r.IntN(len(st.Platers))
	level := ""
	if n := len(st.Platers[q].Levels); n > 0 && randomChance(r, 80) {
		level = st.Platers[q].Levels[r.IntN(n)].Name
	}
	p.Stage = []catalog.Stage{catalog.StageSeen, catalog.StageStripped, catalog.StagePriced, catalog.StageApproved, catalog.StagePlated}[r.IntN(5)]
	p.Sent = catalog.Sent{Was: true, Lot: "x-1", Since: r.IntN(30), Count: 1, Quote: catalog.Quote{
		Plater: q, Work: []string{catalog.WorkReplate, catalog.WorkRepair}[r.IntN(2)], Level: level, Cost: randomFrom(r, catalog.Cents(0), 200_00),
		Breakage: given(randomFrom(r, catalog.Micro(0), 300_000)), Refused: given(randomFrom(r, catalog.Micro(0), 100_000)),
		Grade: given(randomFrom(r, catalog.Centi(60_00), 98_00)), Tone: given(catalog.Centi(r.IntN(300))), Fresh: given(randomChance(r, 90)),
	}}
	if randomChance(r, 50) {
		p.Sent.Days = given(r.IntN(60))
	}
	if randomChance(r, 50) {
		p.Sent.Tone = catalog.Val[catalog.Centi]{}
	}
}

// hang puts a piece in a slot it fits, by handwork or not, if nothing hangs there. Some
// were plated for it.
func hang(r *rand.Rand, st *catalog.State, i int) {
	p := &st.Pieces[i]
	fits := p.Fits
	for _, f := range p.Fit {
		fits = append(fits[:len(fits):len(fits)], f.Slot)
	}
	s := fits[r.IntN(len(fits))]
	if st.HungIn(s) != catalog.None || p.Quantity < st.Slots[s].Quantity {
		return
	}
	if randomChance(r, 50) {
		sendOff(r, st, i)
		comeBack(r, p)
	}
	p.Stage, p.HungIn, p.Findings = catalog.StageHung, s, nil
	p.Grade, p.Days = given(randomFrom(r, catalog.Centi(60_00), 95_00)), given(0)
}

// stagedState is a random job in the middle of things, in turn with the rules on that
// have most to do with what was done before.
func stagedState(seed int64, slots int) *catalog.State {
	on := [][]string{nil, {"match-plater", "second-plater"}, {"days"}, {"lock"}, {"trade", "vendor"}, {"fit"}, {"minimum", "freight"}}
	st := randomState(seed, slots, randomOptions{On: on[seed%int64(len(on))]})
	randomStages(rand.New(rand.NewPCG(uint64(seed), 21)), st)
	return st
}

// TestStagesAgainstBrute: in the middle of a job the least total is that of the
// exhaustive search, and the check confirms the plan.
func TestStagesAgainstBrute(t *testing.T) {
	feasible, used := 0, map[catalog.Stage]int{}
	jobs := campaign(150, 700)
	for seed := range int64(jobs) {
		st := stagedState(seed, 1+int(seed%4))
		if _, ok := bruteSolve(t, st); !ok {
			continue
		}
		feasible++
		plan, err := Solve(context.Background(), st, solver.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range plan.Lines {
			for _, c := range []*Choice{l.Choice, l.Fallback} {
				if c != nil && (c.Sent || st.Pieces[c.Piece].Stage != catalog.StageSeen) {
					used[st.Pieces[c.Piece].Stage]++
				}
			}
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
	if feasible < jobs/4 {
		t.Errorf("only %d jobs can be done", feasible)
	}
	for stage := catalog.StageSeen; stage <= catalog.StageHung; stage++ {
		if used[stage] < jobs/50 {
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
	feasible, jobs := 0, campaign(40, 120)
	for seed := range int64(jobs) {
		st := stagedState(2000+seed, 1+int(seed%2))
		sets := 1
		for s := range st.Slots {
			n := len(bruteChoices(st, s))
			sets *= n * (n + 1)
		}
		if sets > 12_000 {
			continue // too many to look through
		}
		all := &naive{st: st}
		all.extend(0, nil)
		total, ok, _ := bruteForce(st)
		if ok != all.has || ok && total != all.total {
			t.Errorf("seed %d: search %d %t, enumeration under the check %d %t", 2000+seed, total, ok, all.total, all.has)
		}
		if ok {
			feasible++
		}
	}
	if feasible < jobs/10 {
		t.Errorf("only %d jobs can be done", feasible)
	}
}

// TestStagesChoices: in the middle of a job every slot has the choices that the check
// derives, with the same figures.
func TestStagesChoices(t *testing.T) {
	for seed := range int64(campaign(80, 300)) {
		compareChoices(t, stagedState(seed, 1+int(seed%6)))
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}
