package solver

import (
	"fmt"
	"math"
	"runtime"
	"sync/atomic"

	"github.com/lanl/clp"
)

// This is the only file that knows the LP engine.

// linear is a linear program in plain data: minimise cost*x so that
// rowLo <= A x <= rowHi and 0 <= x <= up.
type linear struct {
	cost, up     []float64
	cols         [][]entry
	rowLo, rowHi []float64
}

type entry struct {
	row  int
	coef float64
}

// solution is the answer to a linear program. dual has the sign of
// d(objective)/d(right side).
type solution struct {
	x, dual []float64
	value   float64
}

var lpCount atomic.Int64

// solve minimises the linear program. ok is false if the engine found no
// optimum, for whatever reason: callers must not conclude anything from that.
func (l *linear) solve() (sol solution, ok bool, err error) {
	if err := l.check(); err != nil {
		return sol, false, err
	}
	nonzeros := 0
	for _, c := range l.cols {
		nonzeros += len(c)
	}
	m := clp.NewPackedMatrix()
	m.Reserve(len(l.cols), nonzeros, false) // without it, appending is quadratic
	col := []clp.Nonzero{}
	for _, c := range l.cols {
		col = col[:0]
		for _, e := range c {
			col = append(col, clp.Nonzero{Index: e.row, Value: e.coef})
		}
		m.AppendColumn(col)
	}
	m.SetDimensions(len(l.rowLo), len(l.cols))
	cb := make([]clp.Bounds, len(l.cols))
	for i := range cb {
		cb[i] = clp.Bounds{Lower: 0, Upper: l.up[i]}
	}
	rb := make([]clp.Bounds, len(l.rowLo))
	for i := range rb {
		rb[i] = clp.Bounds{Lower: l.rowLo[i], Upper: l.rowHi[i]}
	}
	s := clp.NewSimplex()
	s.SetMaxIterations(50*(len(l.cols)+len(l.rowLo)) + 1000)
	s.LoadProblem(m, cb, l.cost, rb, nil)
	s.SetOptimizationDirection(clp.Minimize)
	status := s.Dual(clp.NoValuesPass, clp.NoStartFinishOptions)
	if status != clp.Optimal && status != clp.Infeasible {
		status = s.Primal(clp.NoValuesPass, clp.NoStartFinishOptions)
	}
	if status == clp.Optimal {
		sol = solution{x: s.PrimalColumnSolution(), dual: s.DualRowSolution(), value: s.ObjectiveValue()}
	}
	runtime.KeepAlive(s)
	runtime.KeepAlive(m)
	// The engine's memory is freed by finalizers alone, and the collector does
	// not see it grow.
	if lpCount.Add(1)%50 == 0 {
		runtime.GC()
	}
	return sol, status == clp.Optimal, nil
}

// check refuses numbers on which the engine aborts the process or silently
// answers wrong.
func (l *linear) check() error {
	bad := func(v float64) bool { return math.IsNaN(v) || math.Abs(v) >= 1e20 }
	for i, c := range l.cols {
		if bad(l.cost[i]) || math.IsNaN(l.up[i]) || l.up[i] < 0 {
			return fmt.Errorf("column %d of a linear program has cost %v and upper bound %v", i, l.cost[i], l.up[i])
		}
		for _, e := range c {
			if bad(e.coef) {
				return fmt.Errorf("column %d of a linear program has coefficient %v", i, e.coef)
			}
		}
	}
	for r := range l.rowLo {
		if math.IsNaN(l.rowLo[r]) || math.IsNaN(l.rowHi[r]) || l.rowLo[r] > l.rowHi[r] {
			return fmt.Errorf("row %d of a linear program lies between %v and %v", r, l.rowLo[r], l.rowHi[r])
		}
	}
	return nil
}
