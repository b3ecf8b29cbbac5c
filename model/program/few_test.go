package program

import (
	"testing"

	"brightset/model/internal/jobs"
)

// TestFewConcerned: where few slots have to do with a row, the least total is that of the
// exhaustive search.
func TestFewConcerned(t *testing.T) {
	feasible, all := 0, jobs.Campaign(150, 20_000)
	for seed := range int64(all) {
		t.Run(jobs.RandomName(seed, 5, "few"), func(t *testing.T) {
			if _, ok := bruteSolve(t, jobs.FewConcerned(seed)); ok {
				feasible++
			}
		})
	}
	if feasible < all/3 {
		t.Errorf("only %d of %d jobs can be done", feasible, all)
	}
}
