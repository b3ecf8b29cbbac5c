package solver

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// guessing is a search with guesses that ends after so many nodes; 0: when it is through.
func guessing(t *testing.T, p *Problem, ch Change, nodes int) (*search, Result) {
	t.Helper()
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	v := &search{p: p, ch: ch, set: Settings{NodeLimit: nodes, Goroutines: 1}, ctx: context.Background(),
		memory: &s.memory, leave: without{walks: true, knapsack: true, dominance: true}}
	if err := v.run(); err != nil {
		t.Fatal(err)
	}
	res, err := v.result()
	if err != nil {
		t.Fatal(err)
	}
	return v, res
}

// wronglyBefore says whether a guess was wrong on the way.
func (g *guess) wronglyBefore() bool {
	return g != nil && g.step > guessMore*max(1, guessFirst*(magnitude(g.low)/1000))
}

// TestGuesses: with guesses, right and wrong ones, a search ends with what trying
// everything finds.
func TestGuesses(t *testing.T) {
	guessed, wrong, below := 0, 0, 0
	for seed := range uint64(campaign.Cases(3000, 30_000)) {
		p := realProblem(rand.New(rand.NewPCG(seed, 72)), 6, 4)
		if refusal(p) != nil {
			continue
		}
		want, has := bruteForce(p, Change{})
		v, res := guessing(t, p, Change{}, 0)
		if res.Status == Stopped || res.Has != has || has && res.Total != want {
			t.Errorf("seed %d: %v %v %d, by trying everything %v %d", seed, res.Status, res.Has, res.Total, has, want)
		}
		if v.guess != nil {
			guessed++
		}
		if v.guess.wronglyBefore() {
			wrong++
		}
		bar := want + []int64{0, 1, 1 + magnitude(want)/50}[seed%3]
		v, res = guessing(t, p, Change{Below: &bar}, 0)
		if found := has && want < bar; res.Status == Stopped || res.Has != found || found && res.Total != want {
			t.Errorf("seed %d, below %d: %v %v %d, by trying everything %v %d", seed, bar, res.Status, res.Has, res.Total,
				has, want)
		}
		if v.guess != nil {
			below++
		}
	}
	if guessed < 30 || wrong < 20 || below < 10 {
		t.Errorf("only %d searches guessed, %d of them wrongly; %d below a bar", guessed, wrong, below)
	}
}

// TestGuessesStopped: a search that is stopped after a wrong guess has a bound that the
// least total is not below.
func TestGuessesStopped(t *testing.T) {
	stopped := 0
	for seed := range uint64(campaign.Cases(800, 3000)) {
		r := rand.New(rand.NewPCG(seed, 73))
		p := realProblem(r, 10, 8)
		if refusal(p) != nil {
			continue
		}
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		s.leave.guesses = true
		best, err := s.Solve(context.Background(), Change{}, Settings{Goroutines: 1, NodeLimit: 3000})
		if err != nil {
			t.Fatal(err)
		}
		if best.Status != Optimal {
			continue
		}
		for nodes := 1; nodes <= 40; nodes += 8 {
			v, res := guessing(t, p, Change{}, nodes)
			if res.Status != Stopped {
				break
			}
			if res.Bound > best.Total {
				t.Errorf("seed %d: stopped after %d nodes with a bound of %d, the least is %d", seed, nodes, res.Bound, best.Total)
			}
			if v.guess.wronglyBefore() && res.Total > best.Total {
				stopped++
			}
		}
	}
	if stopped < 1 {
		t.Errorf("only %d searches were stopped after a wrong guess, before they had the best", stopped)
	}
}

// TestAgain: what was said of the bound below a wrong guess says nothing of totals above it.
func TestAgain(t *testing.T) {
	s := &search{bound: 1900, other: 1200, guess: &guess{limit: 9000, low: 1000, step: 600, pool: &pool{}}}
	if s.again(); s.bound != 1200 || s.other != 1600 {
		t.Errorf("bound %d, the next guess %d; want 1200, as guessed before, and 1600", s.bound, s.other)
	}
}
