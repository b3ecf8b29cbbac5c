package solver

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// leaves are the parts of the search that can be left out one at a time, and together.
var leaves = []struct {
	name string
	without
}{
	{"all there is", without{}},
	{"no dominance", without{dominance: true}},
	{"no blocks", without{blocks: true}},
	{"no classes", without{classes: true}},
	{"no parts", without{parts: true}},
	{"no cuts", without{cuts: true}},
	{"no fixing", without{fixing: true}},
	{"no knapsack", without{knapsack: true}},
	{"no walks", without{walks: true}},
	{"our own engine", without{engine: simplexEngine{}}},
	{"knapsack without walks or classes", without{walks: true, classes: true, dominance: true}},
	{"no links of rows", without{rowLinks: true}},
	{"no guesses", without{guesses: true}},
	{"no layers", without{layers: true}},
	{"no implied rows", without{implied: true}},
	{"implied rows without walks or layers", without{walks: true, layers: true, dominance: true}},
	{"thorough", without{cursory: true}},
	{"in any order", without{order: true}},
	{"thorough without walks or layers", without{cursory: true, walks: true, layers: true}},
	{"none but walks", without{true, true, true, true, true, true, true, false, true, true, true, true, true, true, nil}},
	{"none of them", without{true, true, true, true, true, true, true, true, true, true, true, true, true, true, nil}},
}

// agrees solves a problem with everything and without each part of the search in turn
// and says where an answer is not that of trying everything.
func agrees(p *Problem, ch Change, leave int) (found bool, err error) {
	want, found := bruteForce(p, ch)
	for i, l := range leaves {
		if i > 0 && leave >= 0 && i != leave {
			continue
		}
		s, err := New(p)
		if err != nil {
			return found, err
		}
		s.leave = l.without
		got, err := s.Solve(context.Background(), ch, Settings{Goroutines: 1})
		if err != nil {
			return found, fmt.Errorf("%s: %v", l.name, err)
		}
		if got.Has != found || found && (got.Total != want || got.Status != Optimal) || !found && got.Status != Infeasible {
			return found, fmt.Errorf("%s: %v %v total %d, by trying everything %v %d", l.name, got.Status, got.Has, got.Total,
				found, want)
		}
	}
	return found, nil
}

// TestRealSizes: numbers of the sizes of jobs, near-equal ones and those at the edges
// of types; with everything the search has and with one thing left out, the answer is
// that of trying everything.
func TestRealSizes(t *testing.T) {
	cases, feasible, changed := campaign.Cases(2000, 100_000), 0, 0
	for seed := range uint64(cases) {
		r := rand.New(rand.NewPCG(seed, 21))
		groups := 1 + r.IntN(8)
		p := realProblem(r, groups, []int{9, 9, 9, 7, 5, 4, 4, 3, 3}[groups])
		ch := Change{}
		if seed%3 == 2 {
			ch = realChange(r, p)
			changed++
		}
		found, err := agrees(p, ch, 1+int(seed)%(len(leaves)-1))
		if err != nil {
			t.Errorf("seed %d, change %+v: %v", seed, ch, err)
		}
		if found {
			feasible++
		}
	}
	t.Logf("%d problems, %d with a change, %d with a solution", cases, changed, feasible)
	if feasible < cases/3 || feasible > cases*19/20 {
		t.Errorf("%d of %d with a solution: too few to tell, or too few without", feasible, cases)
	}
}

// TestRealBlocks: the same of problems that fall into blocks with rows of their own.
func TestRealBlocks(t *testing.T) {
	cases, tied := campaign.Cases(2000, 40_000), 0
	for seed := range uint64(cases) {
		p := realBlocks(rand.New(rand.NewPCG(seed, 22)))
		if _, err := agrees(p, Change{}, 1+int(seed)%(len(leaves)-1)); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(true)
		for i := range in.blocks {
			if b := &in.blocks[i]; !b.single() && len(in.sharedRows(b)) > 0 {
				tied++
				break
			}
		}
	}
	t.Logf("%d problems, %d with a block that shares rows", cases, tied)
	if tied < cases/10 {
		t.Errorf("only %d of %d have a block that shares rows", tied, cases)
	}
}

// TestRealParts: the same of problems that are taken apart.
func TestRealParts(t *testing.T) {
	cases, apart, feasible := campaign.Cases(80, 4_000), 0, 0
	for seed := range uint64(cases) {
		p := realParts(rand.New(rand.NewPCG(seed, 25)))
		found, err := agrees(p, Change{}, 1+int(seed)%(len(leaves)-1))
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if found {
			feasible++
		}
		if p.apart() != nil {
			apart++
		}
	}
	t.Logf("%d problems, %d taken apart, %d with a solution", cases, apart, feasible)
	if apart < cases/3 || feasible < cases/3 {
		t.Errorf("of %d only %d were taken apart, %d have a solution", cases, apart, feasible)
	}
}

// TestEarningMakesRoom: what a switch earns makes room in a row of charges for a
// voluntary one, whoever turned it on.
func TestEarningMakesRoom(t *testing.T) {
	p := &Problem{
		Rows: []Row{{Name: "budget", Charges: true}, {Name: "asked", Sense: AtLeast, Limit: 1}},
		Switches: []Switch{
			{Name: "earns", Fixed: -50},
			{Name: "costs", Account: 1, Voluntary: true, Terms: []Term{{0, 40}, {1, 1}}},
		},
		Groups: []Group{{Columns: []Column{{Cost: 7, Needs: []int{0}}, {Cost: 1}}}},
	}
	if _, err := agrees(p, Change{}, -1); err != nil {
		t.Error(err)
	}
}
