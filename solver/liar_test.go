package solver

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// liar is an engine whose answers are made up: what is true of them is of no account.
type liar struct{ as func(r *rand.Rand) float64 }

func (e liar) once(l *linear) (solution, bool) {
	return e.load(l).resolve(func() bool { return false })
}

func (e liar) load(l *linear) loaded {
	return &lying{simplexEngine{}.load(l), e.as, rand.New(rand.NewPCG(uint64(len(l.cols)), 71))}
}

type lying struct {
	loaded
	as func(r *rand.Rand) float64
	r  *rand.Rand
}

func (e *lying) resolve(halt func() bool) (sol solution, ok bool) {
	if sol, ok = e.loaded.resolve(halt); !ok {
		return sol, ok
	}
	for i := range sol.dual {
		sol.dual[i] = e.as(e.r)
	}
	for j := range sol.x {
		sol.x[j] = math.Abs(e.as(e.r))
	}
	sol.value = e.as(e.r)
	return sol, ok
}

// TestLyingEngine: an engine that lies makes a search slow, never wrong: not with made-up
// numbers, nor with such as none can be reckoned with.
func TestLyingEngine(t *testing.T) {
	found := 0
	for name, as := range map[string]func(r *rand.Rand) float64{
		"made up":      func(r *rand.Rand) float64 { return 1000 * r.NormFloat64() },
		"far too much": func(r *rand.Rand) float64 { return 1e90 * r.NormFloat64() },
		"beyond that":  func(r *rand.Rand) float64 { return 1e300 * r.NormFloat64() },
		"without end":  func(r *rand.Rand) float64 { return math.Inf(r.IntN(2)*2 - 1) },
		"no number":    func(r *rand.Rand) float64 { return math.NaN() },
	} {
		for seed := range uint64(campaign.Cases(300, 10_000)) {
			r := rand.New(rand.NewPCG(seed, 72))
			p := randomProblem(r, 2+r.IntN(4), 5)
			if seed%3 == 0 {
				p = realProblem(r, 4, 5)
			}
			want, has := bruteForce(p, Change{})
			s, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			s.leave = without{engine: liar{as}, parts: true, walks: seed%2 == 0}
			for range 2 { // the second one from what is known
				got, err := s.Solve(context.Background(), Change{}, Settings{Goroutines: 1})
				if err != nil || got.Has != has || has && (got.Status != Optimal || got.Total != want) ||
					!has && got.Status != Infeasible {
					t.Errorf("%s, seed %d: %v %v total %d (%v), by trying everything %v %d", name, seed, got.Status, got.Has,
						got.Total, err, has, want)
				}
			}
			if has {
				found++
			}
		}
	}
	if found < campaign.Cases(200, 200) {
		t.Errorf("only %d with a solution: too few to tell", found)
	}
}
