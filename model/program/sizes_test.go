package program

import (
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/oracle"
	"brightset/testdata/campaign"
)

// SizedState is a random job with figures of real sizes. In turn: as it is, with a match and
// hardly any failure to spare, and on the edge of its limits; seldom with all money as large
// or as small as it may be.
func SizedState(seed int64, slots int) *catalog.State {
	on := [][]string{nil, {"match-grade", "completion", "lead", "quote", "given-grade"},
		{"match-grade", "match-tone", "mean"}, {"trade", "vendor"}}
	st := jobs.Random(seed, slots, jobs.Options{On: on[seed%4]})
	r := rand.New(rand.NewPCG(uint64(seed), 77))
	jobs.RealSizes(r, st)
	switch r.IntN(10) {
	case 0:
		jobs.AsLargeAsCan(st)
	case 1:
		jobs.ACent(r, st)
	}
	if seed%4 == 1 || jobs.Chance(r, 50) {
		jobs.OnTheEdge(r, st)
	}
	return st
}

// TestSizes: with figures of all sizes that files have, and on the edges of limits, the
// least total is that of the exhaustive search.
func TestSizes(t *testing.T) {
	feasible, all := 0, 0
	for seed := range int64(campaign.Cases(500, 30_000)) {
		slots := 1 + int(seed/4%5)
		ok := false
		t.Run(jobs.CaseName(seed, slots, "sizes"),
			func(t *testing.T) { _, ok = solveAndTry(t, SizedState(seed, slots)) })
		if all++; ok {
			feasible++
		}
	}
	if share := feasible * 100 / all; share < 25 || share > 90 {
		t.Errorf("%d of %d jobs are feasible: too few or too many to test with", feasible, all)
	}
}

// TestSizesOfRows: the sizes that are meant to occur do.
func TestSizesOfRows(t *testing.T) {
	seen := map[string]int{}
	for seed := range int64(200) {
		st := SizedState(seed, 2)
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
	for _, what := range []string{"none or one", "55296 to 57343", "above 0x10FFFF", "large money", "cents",
		"below the mean"} {
		if seen[what] < 20 {
			t.Errorf("only %d lines with: %s; seen %v", seen[what], what, seen)
		}
	}
}

// TestSizesOfStages: the same in the middle of a job.
func TestSizesOfStages(t *testing.T) {
	for seed := range int64(campaign.Cases(120, 10_000)) {
		st := jobs.StagedState(seed, 1+int(seed%4))
		r := rand.New(rand.NewPCG(uint64(seed), 78))
		jobs.RealSizes(r, st)
		jobs.OnTheEdge(r, st)
		if solveAndTry(t, st); t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// TestSizesOfShared: the same with one spare for two slots.
func TestSizesOfShared(t *testing.T) {
	for seed := range int64(campaign.Cases(60, 3_000)) {
		st := scarceState(seed, 2+int(seed%2))
		r := rand.New(rand.NewPCG(uint64(seed), 79))
		jobs.RealSizes(r, st)
		jobs.OnTheEdge(r, st)
		if compareShared(t, st); t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}
