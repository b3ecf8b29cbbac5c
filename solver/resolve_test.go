package solver

import (
	"context"
	"math/rand/v2"
	"testing"
)

// TestMemoryChangesNothing: a solver that has solved other things before gives
// the totals of one that has not.
func TestMemoryChangesNothing(t *testing.T) {
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 4))
		p := randomProblem(r, 2+r.IntN(5), 6)
		used, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for range 6 {
			ch := randomChange(r, p)
			fresh, _ := New(p)
			a, errA := used.Solve(context.Background(), ch, Settings{})
			b, errB := fresh.Solve(context.Background(), ch, Settings{})
			if errA != nil || errB != nil || a.Status != b.Status || a.Total != b.Total {
				t.Fatalf("seed %d, %+v: %v %d with memory, %v %d without (%v, %v)", seed, ch, a.Status, a.Total, b.Status, b.Total,
					errA, errB)
			}
		}
	}
}

// TestGoroutines: the answer, not only the total, is the same for any number.
func TestGoroutines(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 5))
		p := randomProblem(r, 8, 12)
		var first Result
		for i, n := range []int{1, 2, 5} {
			s, _ := New(p)
			res, err := s.Solve(context.Background(), Change{}, Settings{Goroutines: n})
			if err != nil {
				t.Fatal(err)
			}
			if i == 0 {
				first = res
			}
			for g := range res.Pick {
				if res.Pick[g] != first.Pick[g] {
					t.Fatalf("seed %d: another pick with %d goroutines", seed, n)
				}
			}
			if res.Nodes != first.Nodes || res.LPs != first.LPs {
				t.Errorf("seed %d: another search with %d goroutines", seed, n)
			}
		}
	}
}

// TestBelow: asked for a total below the least there is, nothing is found; below
// one more than that, the least is.
func TestBelow(t *testing.T) {
	for seed := range uint64(150) {
		p := randomProblem(rand.New(rand.NewPCG(seed, 6)), 5, 6)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		least, err := s.Solve(context.Background(), Change{}, Settings{})
		if err != nil || !least.Has {
			continue
		}
		for _, more := range []int64{0, 1} {
			below := least.Total + more
			res, err := s.Solve(context.Background(), Change{Below: &below}, Settings{})
			if err != nil || res.Has != (more == 1) || (res.Has && res.Total != least.Total) {
				t.Fatalf("seed %d: least %d, below %d gives %v %d (%v)", seed, least.Total, below, res.Status, res.Total, err)
			}
		}
	}
}
