package solver

import (
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// TestHaltedBoundsHold: once time is up every long step ends early, and what it leaves
// behind still proves nothing that isn't so.
func TestHaltedBoundsHold(t *testing.T) {
	known, early := 0, 0
	for seed := range uint64(campaign.Cases(600, 20_000)) {
		r := rand.New(rand.NewPCG(seed, 41))
		p := randomProblem(r, 2+r.IntN(3), 5)
		want, found := bruteForce(p, Change{})
		if !found {
			continue
		}
		known++
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(true)
		whole := goesTogether(in)
		in.halt = func() bool { return true }
		if left := in.undominated().count(); left != len(in.cols) {
			t.Fatalf("seed %d: %d of %d columns compared after time was up", seed, len(in.cols)-left, len(in.cols))
		}
		in.findBlocks(true)
		if goesTogether(in) > whole {
			early++
		}
		y := in.zeroDuals()
		for i := range y.row {
			y.row[i] = 3 * r.Float64()
		}
		if b := in.lagrangian(in.fullDomain(), y, true); b.lower() > want {
			t.Errorf("seed %d: bound %d after time was up, the least is %d", seed, b.lower(), want)
		}
	}
	if known < campaign.Cases(100, 100) || early < campaign.Cases(20, 20) {
		t.Errorf("%d with a solution, %d with blocks left half done: too few to tell", known, early)
	}
}

// goesTogether counts the pairs of classes that go together.
func goesTogether(in *instance) int {
	n := 0
	for i := range in.blocks {
		for _, g := range in.blocks[i].goes {
			n += g.count()
		}
	}
	return n
}

// TestEngineHalts: a linear program that is not solved when time is up is given up, and
// one solved in steps has the optimum of one solved in one go.
func TestEngineHalts(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 42))
	p := randomProblem(r, 12, 12)
	p.WithinTolerance, p.AllEqual = nil, nil
	in := newInstance(p, &Change{}, without{})
	in.findBlocks(false)
	m := in.newMaster(in.fullDomain(), in.newPool(), true)
	defer m.close()
	in.seed(m.pool, m.d, in.lagrangian(m.d, in.zeroDuals(), true))
	late := true
	in.halt = func() bool { return late }
	if sol, ok, err := m.optimum(in.fullDomain()); ok || err != nil {
		t.Errorf("solved to %v after time was up (%v)", sol.value, err)
	}
	late = false
	sol, ok, err := m.optimum(in.fullDomain())
	once, _, _ := m.lin.solve(in.without.solves())
	if !ok || err != nil || sol.value-once.value > 1e-6 || once.value-sol.value > 1e-6 {
		t.Errorf("%v, %v (%v) in steps, %v in one go", sol.value, ok, err, once.value)
	}
}
