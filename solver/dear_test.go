package solver

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/testdata/campaign"
)

// steepProblem asks for nearly the most that there is of two rows, whose coefficients are
// large and differ by little: what a unit of them is worth is then far more than what a
// column costs by the size of its coefficient.
func steepProblem(r *rand.Rand, groups, columns int) *Problem {
	const large = 1_000_000
	p := &Problem{Rows: []Row{{Sense: AtLeast}, {Sense: AtLeast}}}
	var most [2]int64
	for range groups {
		var g Group
		var top [2]int64
		for range columns {
			a, b := r.Int64N(30), r.Int64N(30)
			top[0], top[1] = max(top[0], large+a), max(top[1], large+b)
			g.Columns = append(g.Columns, Column{Cost: 100 + 20*a + 20*b + r.Int64N(300),
				Terms: []Term{{0, large + a}, {1, large + b}}})
		}
		p.Groups = append(p.Groups, g)
		most[0], most[1] = most[0]+top[0], most[1]+top[1]
	}
	for i := range p.Rows {
		p.Rows[i].Limit = most[i] - int64(groups)*(3+r.Int64N(6))
	}
	return p
}

// TestSteep: where little is left of what there is, answers are right.
func TestSteep(t *testing.T) {
	found := 0
	for seed := range uint64(campaign.Cases(400, 20_000)) {
		p := steepProblem(rand.New(rand.NewPCG(seed, 81)), 5, 5)
		want, has := bruteForce(p, Change{})
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		s.leave = without{walks: true, knapsack: true, layers: true}
		got, err := s.Solve(context.Background(), Change{}, Settings{Goroutines: 1})
		if err != nil || got.Status == Stopped || got.Has != has || has && got.Total != want {
			t.Errorf("seed %d: %v %v %d, by trying everything %v %d: %v", seed, got.Status, got.Has, got.Total, has, want, err)
		}
		if has {
			found++
		}
	}
	if found < 40 {
		t.Errorf("only %d had a solution", found)
	}
}

// TestDearEnough: a row that can be kept is kept in the relaxation of the root, whatever a
// unit of it is worth, and its bound says what that costs.
func TestDearEnough(t *testing.T) {
	cheap := 0
	for seed := range uint64(40) {
		p := steepProblem(rand.New(rand.NewPCG(seed, 82)), 10, 6)
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(true)
		s := &search{p: p, in: in, ctx: context.Background(), other: in.beyond()}
		d := in.fullDomain()
		if !in.propagate(d) {
			continue
		}
		m := in.newMaster(d, in.newPool(), true)
		r, empty, err := s.relaxNode(d, nil, m, &incumbent{})
		if err != nil {
			t.Fatal(err)
		}
		if !empty && r.slack > 1e-7 {
			t.Errorf("seed %d: exceeds rows by %g at %g times the price", seed, r.slack, m.dearer)
		}
		if !empty && m.dearer > 1 {
			cheap++
		}
		m.close()
	}
	if cheap < 5 {
		t.Errorf("only %d would rather have exceeded a row", cheap)
	}
}

// cheapAlone is an engine that fails where costs are high.
type cheapAlone struct{ engine }

func (e cheapAlone) once(l *linear) (sol solution, ok bool) {
	if slices.Max(l.cost) > 1e9 {
		return sol, false
	}
	return e.engine.once(l)
}

func (e cheapAlone) load(l *linear) loaded { return cheapLoaded{e.engine.load(l), l} }

type cheapLoaded struct {
	loaded
	l *linear
}

func (e cheapLoaded) resolve(halt func() bool) (sol solution, ok bool) {
	if slices.Max(e.l.cost) > 1e9 {
		return sol, false
	}
	return e.loaded.resolve(halt)
}

// TestDearFails: where the engine fails at the higher price, what the lower one gave is kept.
func TestDearFails(t *testing.T) {
	kept := 0
	for seed := range uint64(40) {
		p := steepProblem(rand.New(rand.NewPCG(seed, 82)), 10, 6)
		in := newInstance(p, &Change{}, without{engine: cheapAlone{simplexEngine{}}})
		in.findBlocks(true)
		s := &search{p: p, in: in, ctx: context.Background(), other: in.beyond()}
		d := in.fullDomain()
		if !in.propagate(d) {
			continue
		}
		m := in.newMaster(d, in.newPool(), true)
		r, _, err := s.relaxNode(d, nil, m, &incumbent{})
		if err != nil || r == nil {
			t.Errorf("seed %d: no relaxation, %v", seed, err)
		}
		if m.dearer > 1e3 {
			kept++
		}
		m.close()
	}
	if kept < 3 {
		t.Errorf("the engine failed on %d alone", kept)
	}
}
