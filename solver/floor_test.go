package solver

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// TestFloors: no solution with a column is below its floor, as found by trying; nothing is
// said before anything is known, and of many columns more than of the problem as a whole.
func TestFloors(t *testing.T) {
	above, exact := 0, 0
	for seed := range uint64(campaign.Cases(300, 10_000)) {
		r := rand.New(rand.NewPCG(seed, 71))
		p := realProblem(r, 5, 4)
		if seed%3 == 0 {
			p = realBlocks(r)
		}
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range s.Floors(context.Background(), 0) {
			if v != -Limit {
				t.Fatalf("seed %d: a floor of %d before anything is known", seed, v)
			}
		}
		least, err := s.Solve(context.Background(), Change{}, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for g := range p.Groups {
			for c, v := range s.Floors(context.Background(), g) {
				total, found := bruteForce(p, Change{Fix: []Pick{{g, c}}})
				if found && total < v {
					t.Fatalf("seed %d: %d with column %d of group %d, and a floor of %d", seed, total, c, g, v)
				}
				if least.Has && v > least.Total {
					above++
				}
				if found && total == v {
					exact++
				}
			}
		}
	}
	if above < campaign.Cases(100, 100) || exact < campaign.Cases(20, 20) {
		t.Errorf("%d floors above the least total, %d exact: too few to tell", above, exact)
	}
}
