package solver

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// standardForm writes a linear program as gonum's simplex wants it: minimise
// c x, A x = b, x >= 0, one slack per inequality and per upper bound.
func standardForm(l *linear) (c []float64, a *mat.Dense, b []float64) {
	rows, n := len(l.rowLo), len(l.cost)
	var slack, bounded []int
	for r := range rows {
		if l.rowLo[r] != l.rowHi[r] {
			slack = append(slack, r)
		}
	}
	for j, up := range l.up {
		if !math.IsInf(up, 1) {
			bounded = append(bounded, j)
		}
	}
	width := n + len(slack) + len(bounded)
	c = make([]float64, width)
	copy(c, l.cost)
	a = mat.NewDense(rows+len(bounded), width, nil)
	b = make([]float64, rows+len(bounded))
	for j, col := range l.cols {
		for _, e := range col {
			a.Set(e.row, j, e.coef)
		}
	}
	for r := range rows {
		b[r] = l.rowHi[r]
	}
	for i, r := range slack {
		a.Set(r, n+i, 1)
	}
	for i, j := range bounded {
		a.Set(rows+i, j, 1)
		a.Set(rows+i, n+len(slack)+i, 1)
		b[rows+i] = l.up[j]
	}
	return c, a, b
}

// TestRelaxationAgainstGonum solves the root relaxations of random problems with
// a second simplex that shares no line with the engine.
func TestRelaxationAgainstGonum(t *testing.T) {
	compared := 0
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 3))
		in := newInstance(randomProblem(r, 2+r.IntN(5), 5), &Change{}, without{})
		in.findBlocks(false)
		d := in.fullDomain()
		if !in.propagate(d) {
			continue
		}
		p := in.newPool()
		in.seed(p, d, in.lagrangian(d, in.zeroDuals(), true))
		m := in.newMaster(d, p, true)
		m.build()
		got, ok, err := m.lin.solve(in.without.solves())
		if err != nil || !ok {
			t.Fatalf("seed %d: the engine failed: %v %v", seed, ok, err)
		}
		c, a, b := standardForm(&m.lin)
		want, _, err := lp.Simplex(c, a, b, 1e-10, nil)
		if err != nil {
			continue // it gives up on singular starts; that says nothing of ours
		}
		compared++
		if math.Abs(got.value-want) > 1e-6*(1+math.Abs(want)) {
			t.Errorf("seed %d: engine %v, gonum %v", seed, got.value, want)
		}
		// Weak duality: the bound made of the engine's duals is not above it.
		y := m.duals(got.dual)
		if in.blocksWhole() {
			if v := in.lagrangian(d, y, true); v.value > want+m.settled()+1e-6*(1+math.Abs(want)) {
				t.Errorf("seed %d: bound %v above the relaxation %v", seed, v.value, want)
			}
		}
	}
	if compared < 100 {
		t.Errorf("only %d relaxations were compared", compared)
	}
}

// blocksWhole says whether the LP has every pick of every block.
func (in *instance) blocksWhole() bool {
	for i := range in.blocks {
		if !in.whole(i) {
			return false
		}
	}
	return true
}
