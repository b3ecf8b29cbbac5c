package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// tieRich makes a problem most of whose totals, and many of whose ties, are equal.
func tieRich(r *rand.Rand) *Problem {
	p := randomProblem(r, 1+r.IntN(6), 5)
	step := 1 + r.Int64N(40)
	for h := range p.Switches {
		p.Switches[h].Fixed = p.Switches[h].Fixed / step * step
	}
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			k := &p.Groups[g].Columns[c]
			k.Cost = k.Cost / step * step
			k.Tie = [2]int64{r.Int64N(3) - 1, r.Int64N(4)}
			if r.IntN(4) == 0 {
				k.Tie[0] *= 1_000_000_007
			}
		}
	}
	return p
}

// leastTies goes through everything: the least total, and its least ties.
func leastTies(p *Problem, ch Change) (total int64, least ties, pick []int, equals int) {
	var vol []int
	for h := range p.Switches {
		if p.Switches[h].Voluntary {
			vol = append(vol, h)
		}
	}
	numbers := p.numbering().number
	ranks, at := p.ranks(numbers), make([]int, len(p.Groups))
	judge := func() {
		tie := ties{}
		for g, c := range at {
			k := &p.Groups[g].Columns[c]
			tie = ties{tie[0] + k.Tie[0], tie[1] + k.Tie[1], tie[2] + ranks[g]*numbers[g][c]}
		}
		for mask := range 1 << len(vol) {
			on := make([]bool, len(p.Switches))
			for i, h := range vol {
				on[h] = mask>>i&1 == 1
			}
			o := p.Evaluate(at, on, ch)
			if len(o.Broken) > 0 || pick != nil && o.Total > total {
				continue
			}
			if pick != nil && o.Total == total {
				if equals++; !tie.less(least) {
					continue
				}
			} else {
				equals = 1
			}
			total, least, pick = o.Total, tie, append([]int(nil), at...)
		}
	}
	banned := map[Pick]bool{}
	for _, b := range ch.Ban {
		banned[b] = true
	}
	for _, f := range ch.Fix {
		for c := range p.Groups[f.Group].Columns {
			banned[Pick{f.Group, c}] = banned[Pick{f.Group, c}] || c != f.Column
		}
	}
	var walk func(g int)
	walk = func(g int) {
		if g == len(at) {
			judge()
			return
		}
		for c := range p.Groups[g].Columns {
			if at[g] = c; !banned[Pick{g, c}] {
				walk(g + 1)
			}
		}
	}
	walk(0)
	return total, least, pick, equals
}

// TestTiesBrute: of all solutions of least total the one of least ties, against trying
// everything.
func TestTiesBrute(t *testing.T) { tiesBrute(t, tieRich) }

// TestTiesSearched: the same where nothing is enumerated.
func TestTiesSearched(t *testing.T) {
	defer func(was int) { tieTries = was }(tieTries)
	tieTries = 0
	tiesBrute(t, tieRich)
}

func tiesBrute(t *testing.T, problem func(r *rand.Rand) *Problem) {
	tied := 0
	for seed := range uint64(campaign.Cases(1200, 50_000)) {
		r := rand.New(rand.NewPCG(seed, 51))
		p := problem(r)
		ch := Change{}
		if r.IntN(2) == 0 {
			ch = randomChange(r, p)
		}
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if seed%3 == 0 { // what is enumerated is never branched
			s.leave = without{walks: true, layers: true, knapsack: true, dominance: true, cursory: seed%2 == 0}
		}
		got, err := s.Solve(context.Background(), ch, Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		total, least, pick, equals := leastTies(p, ch)
		if got.Has != (pick != nil) ||
			got.Has && (got.Total != total || !got.Settled || fmt.Sprint(got.Pick) != fmt.Sprint(pick)) {
			t.Errorf("seed %d, %+v: %v, total %d, settled %v, picks %v; trying everything %d, %v with ties %v", seed, ch,
				got.Status, got.Total, got.Settled, got.Pick, total, pick, least)
		}
		if equals > 1 {
			tied++
		}
	}
	if tied < campaign.Cases(100, 100) {
		t.Errorf("only %d problems had solutions of equal total", tied)
	}
}

// TestTiesDontDependOnWhatWasAsked: the answer, not the total alone, is that of a solver
// that was asked nothing before.
func TestTiesDontDependOnWhatWasAsked(t *testing.T) {
	for seed := range uint64(campaign.Cases(120, 5000)) {
		r := rand.New(rand.NewPCG(seed, 52))
		p := tieRich(r)
		used, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		for range 6 {
			ch := randomChange(r, p)
			fresh, _ := New(p)
			a, errA := used.Solve(context.Background(), ch, Settings{Goroutines: 2})
			b, errB := fresh.Solve(context.Background(), ch, Settings{Goroutines: 1})
			if errA != nil || errB != nil ||
				fmt.Sprint(a.Pick, a.On, a.Total, a.Settled) != fmt.Sprint(b.Pick, b.On, b.Total, b.Settled) {
				t.Errorf("seed %d, %+v: %v with memory, %v without (%v, %v)", seed, ch, a.Pick, b.Pick, errA, errB)
			}
		}
	}
}
