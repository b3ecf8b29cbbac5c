package model

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/oracle"
	"brightset/solver"
)

// sizedState is a random job with figures of real sizes. In turn: as it is, with a match and
// hardly any failure to spare, and on the edge of its limits; seldom with all money as large
// or as small as it may be.
func sizedState(seed int64, slots int) *catalog.State {
	on := [][]string{nil, {"match-grade", "completion", "lead", "quote", "given-grade"}, {"match-grade", "match-tone", "mean"}, {"trade", "vendor"}}
	st := randomState(seed, slots, randomOptions{On: on[seed%4]})
	r := rand.New(rand.NewPCG(uint64(seed), 77))
	realSizes(r, st)
	switch r.IntN(10) {
	case 0:
		asLargeAsCan(st)
	case 1:
		aCent(r, st)
	}
	if seed%4 == 1 || randomChance(r, 50) {
		onTheEdge(r, st)
	}
	return st
}

// TestSizes: with figures of all sizes that files have, and on the edges of limits, the
// least total is that of the exhaustive search.
func TestSizes(t *testing.T) {
	feasible, jobs := 0, 0
	for seed := range int64(campaign(250, 30_000)) {
		slots := 1 + int(seed/4%5)
		ok := false
		t.Run(randomName(seed, slots, "sizes"), func(t *testing.T) { _, ok = bruteSolve(t, sizedState(seed, slots)) })
		if jobs++; ok {
			feasible++
		}
	}
	if share := feasible * 100 / jobs; share < 25 || share > 90 {
		t.Errorf("%d of %d jobs are feasible: too few or too many to test with", feasible, jobs)
	}
}

// TestSizesOfRows: the sizes that are meant to occur do.
func TestSizesOfRows(t *testing.T) {
	seen := map[string]int{}
	for seed := range int64(200) {
		st := sizedState(seed, 2)
		for s := range st.Slots {
			for _, l := range oracle.Read(st).Lines(s) {
				switch {
				case l.Risk == 0 && l.K.Fails > 0, l.Risk == 1:
					seen["none or one"]++
				case l.Risk >= 55_296 && l.Risk <= 57_343:
					seen["55296 to 57343"]++
				case l.Risk > 13_000_000:
					seen["nearly certain"]++
				case l.Risk > 0x10FFFF:
					seen["above 0x10FFFF"]++
				}
				if l.Cost > 1<<40 {
					seen["large money"]++
				}
				if l.Cost < 10 {
					seen["cents"]++
				}
				if mean := st.Job.Target.Mean; mean.Set && l.K.Grade < mean.V {
					seen["below the mean"]++
				}
			}
		}
	}
	if seen["nearly certain"] < 5 {
		t.Errorf("only %d lines nearly certain to fail", seen["nearly certain"])
	}
	for _, what := range []string{"none or one", "55296 to 57343", "above 0x10FFFF", "large money", "cents", "below the mean"} {
		if seen[what] < 20 {
			t.Errorf("only %d lines with: %s; seen %v", seen[what], what, seen)
		}
	}
}

// TestSizesOfStages: the same in the middle of a job.
func TestSizesOfStages(t *testing.T) {
	for seed := range int64(campaign(60, 10_000)) {
		st := stagedState(seed, 1+int(seed%4))
		r := rand.New(rand.NewPCG(uint64(seed), 78))
		realSizes(r, st)
		onTheEdge(r, st)
		if bruteSolve(t, st); t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// TestSizesOfShared: the same with one spare for two slots.
func TestSizesOfShared(t *testing.T) {
	for seed := range int64(campaign(30, 3_000)) {
		st := scarceState(seed, 2+int(seed%2))
		r := rand.New(rand.NewPCG(uint64(seed), 79))
		realSizes(r, st)
		onTheEdge(r, st)
		if compareOneForTwo(t, st); t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// TestSizesOfPairs: the same with two jobs of one shop.
func TestSizesOfPairs(t *testing.T) {
	for seed := range int64(campaign(30, 3_000)) {
		pair := randomPair(seed, 1+int(seed%2))
		for j, st := range pair { // what is the shop's is the same for both
			r := rand.New(rand.NewPCG(uint64(seed), uint64(80+j)))
			for s := range st.Slots {
				st.Slots[s].Weight = randomWeight(r)
			}
			for i := range st.Pieces {
				p := &st.Pieces[i]
				if !p.InShop && p.Chance < catalog.One {
					p.Chance = catalog.One - randomFails(r)
				}
				for q := range p.Quotes {
					if !p.InShop {
						realQuote(r, &p.Quotes[q], func() catalog.Cents { return 100_00 + catalog.Cents(r.IntN(3)) }, []catalog.Centi{70_00, 70_01})
					}
				}
			}
			onTheEdge(r, st)
		}
		out, err := PlanTogether(context.Background(), pair, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want, feasible := oracle.Together(pair, oracle.AllOfShop)
		if out.Has != feasible || out.Has && (out.Status != solver.Optimal || out.Expected != want) {
			t.Errorf("seed %d: %s, %d in hand %t; by trying everything %d, %t", seed, out.Status, out.Expected, out.Has, want, feasible)
		}
	}
}
