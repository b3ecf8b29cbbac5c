package solver

import (
	"math"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// randomMaster is the linear program of a random problem, ready to be solved.
func randomMaster(seed uint64, groups, columns int) (*master, *rand.Rand) {
	r := rand.New(rand.NewPCG(seed, 51))
	in := newInstance(randomProblem(r, groups, columns), &Change{}, without{})
	in.findBlocks(seed%2 == 0)
	d := in.fullDomain()
	p := in.newPool()
	in.seed(p, d, in.lagrangian(d, in.zeroDuals(), true))
	m := in.newMaster(d, p, seed%5 != 0)
	m.build()
	return m, r
}

// optimality is by how much an answer misses being one: what it breaks of the rows and of
// the bounds, and by how much the value is above what its multipliers prove.
func (l *linear) optimality(sol *solution) (broken, gap float64) {
	row := make([]float64, len(l.rowLo))
	bound := 0.0
	for j, x := range sol.x {
		broken = max(broken, l.lo[j]-x, x-l.up[j])
		rc := l.cost[j]
		for _, e := range l.cols[j] {
			row[e.row] += e.coef * x
			rc -= e.coef * sol.dual[e.row]
		}
		switch {
		case rc > 0:
			bound += rc * l.lo[j]
		case !math.IsInf(l.up[j], 1):
			bound += rc * l.up[j]
		case rc < -1e-6*(1+math.Abs(l.cost[j])):
			return broken, math.Inf(1)
		}
	}
	for i, v := range row {
		size := 1 + math.Abs(v)
		broken = max(broken, (l.rowLo[i]-v)/size, (v-l.rowHi[i])/size)
		if sol.dual[i] > 0 {
			bound += sol.dual[i] * l.rowLo[i]
		} else if sol.dual[i] < 0 {
			bound += sol.dual[i] * l.rowHi[i]
		}
	}
	return broken, sol.value - bound
}

// TestSimplexProvesItself: whatever the bounds become and whatever columns come in, what
// our engine answers keeps rows and bounds, and its own multipliers prove that nothing is
// less.
func TestSimplexProvesItself(t *testing.T) {
	solved := 0
	for seed := range uint64(campaign.Cases(300, 20_000)) {
		m, r := randomMaster(seed, 2+int(seed%9), 7)
		l := m.lin
		whole := l.cols
		if len(whole) == 0 {
			continue
		}
		l.cols, l.cost, l.lo, l.up = nil, nil, nil, nil
		widen := func(n int) {
			for j := len(l.cols); j < min(n, len(whole)); j++ {
				l.cols, l.cost = append(l.cols, whole[j]), append(l.cost, m.lin.cost[j])
				l.lo, l.up = append(l.lo, m.lin.lo[j]), append(l.up, m.lin.up[j])
			}
		}
		widen(1 + len(whole)/2)
		e := simplexEngine{}.load(&l)
		for range 12 {
			switch {
			case r.IntN(4) == 0:
				widen(len(l.cols) + 1 + r.IntN(4))
			default:
				j := r.IntN(len(l.cols))
				l.lo[j], l.up[j] = m.lin.lo[j], m.lin.up[j]
				if r.IntN(2) == 0 {
					l.up[j] = float64(r.IntN(2))
				}
				l.lo[j] = min(l.up[j], float64(r.IntN(4)/3))
			}
			sol, ok := e.resolve(func() bool { return false })
			if !ok {
				continue // the first half may have no solution, or too many may have to be in
			}
			solved++
			if broken, gap := l.optimality(&sol); broken > 1e-7 || math.Abs(gap) > 1e-6*(1+math.Abs(sol.value)) {
				t.Errorf("seed %d: broken by %g, %g above what is proven of %g", seed, broken, gap, sol.value)
			}
		}
		e.close()
	}
	if solved < 200 {
		t.Errorf("only %d linear programs were solved", solved)
	}
}

// TestSimplexAfterNothing: what is solved after bounds that nothing meets has the costs it
// had before, which the dual method shifts on its way.
func TestSimplexAfterNothing(t *testing.T) {
	inf := math.Inf(1)
	l := &linear{ // a + b = 1, c <= a, d = c/2
		cost: []float64{-3, 1, -5, 0}, lo: []float64{0, 0, 2, 0}, up: []float64{inf, inf, inf, inf},
		cols:  [][]entry{{{0, 1}, {1, -1}}, {{0, 1}}, {{1, 1}, {2, -0.5}}, {{2, 1}}},
		rowLo: []float64{1, -inf, 0}, rowHi: []float64{1, 0, 0},
	}
	e := simplexEngine{}.load(l)
	never := func() bool { return false }
	if sol, ok := e.resolve(never); ok {
		t.Errorf("%v keeps bounds that nothing can", sol.x)
	}
	l.lo[2] = 0
	if sol, ok := e.resolve(never); !ok || math.Abs(sol.value+8) > 1e-9 || math.Abs(sol.x[3]-0.5) > 1e-9 {
		t.Errorf("%v at %v (%v), want -8 at c = 1, d = 0.5", sol.value, sol.x, ok)
	}
}
