package solver

// #cgo pkg-config: clp
// #include "Clp_C_Interface.h"
import "C"

import (
	"fmt"
	"math"
	"runtime"
	"sync/atomic"
	"unsafe"

	"github.com/lanl/clp"
)

// This is the only file that knows the LP engine. A linear program that is solved
// once goes through the clp package; one that stays while bounds change and
// columns come in goes through the engine's own C interface, which the package
// has no way to: it keeps the basis.

// linear is a linear program in plain data: minimise cost*x so that
// rowLo <= A x <= rowHi and lo <= x <= up.
type linear struct {
	cost, lo, up []float64
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
		cb[i] = clp.Bounds{Lower: l.lo[i], Upper: l.up[i]}
	}
	rb := make([]clp.Bounds, len(l.rowLo))
	for i := range rb {
		rb[i] = clp.Bounds{Lower: l.rowLo[i], Upper: l.rowHi[i]}
	}
	s := clp.NewSimplex()
	s.SetMaxIterations(l.patience())
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

// patience is how many iterations a solve may take.
func (l *linear) patience() int { return 50*(len(l.cols)+len(l.rowLo)) + 1000 }

// check refuses numbers on which the engine aborts the process or silently
// answers wrong.
func (l *linear) check() error {
	bad := func(v float64) bool { return math.IsNaN(v) || math.Abs(v) >= 1e20 }
	for i, c := range l.cols {
		if bad(l.cost[i]) || !(l.lo[i] <= l.up[i]) || math.Abs(l.lo[i]) >= 1e20 {
			return fmt.Errorf("column %d of a linear program has cost %v and bounds %v and %v", i, l.cost[i], l.lo[i], l.up[i])
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

// loaded is a linear program that stays in the engine. It is for one goroutine,
// and has to be closed.
type loaded struct {
	l    *linear
	m    unsafe.Pointer
	cols int // how many of l's columns the engine has
}

// load hands the linear program to the engine without solving it.
func (l *linear) load() (*loaded, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	e := &loaded{l: l, m: C.Clp_newModel(), cols: len(l.cols)}
	C.Clp_setLogLevel(e.m, 0)
	start, index, value := columnwise(l.cols)
	C.Clp_loadProblem(e.m, C.int(len(l.cols)), C.int(len(l.rowLo)), intsAt(start), intsAt(index), at(value),
		at(l.lo), at(l.up), at(l.cost), at(l.rowLo), at(l.rowHi))
	return e, nil
}

func (e *loaded) close() {
	C.Clp_deleteModel(e.m)
	e.m = nil
}

// resolve solves again from the last basis, after bounds and columns of the linear
// program have changed. ok is false if the engine found no optimum, for whatever
// reason; it looks at halt now and then, and gives up when that says so.
func (e *loaded) resolve(halt func() bool) (sol solution, ok bool, err error) {
	if err := e.l.check(); err != nil {
		return sol, false, err
	}
	widened := e.widen()
	C.Clp_chgColumnLower(e.m, at(e.l.lo))
	C.Clp_chgColumnUpper(e.m, at(e.l.up))
	primal := func() { C.Clp_primal(e.m, 0) }
	if widened {
		e.iterate(halt, primal)
	} else {
		e.iterate(halt, func() { C.Clp_dual(e.m, 0) })
	}
	if !e.optimal() {
		e.iterate(halt, primal)
	}
	if !e.optimal() {
		return sol, false, nil
	}
	n := len(e.l.cols)
	return solution{
		x:     append([]float64(nil), unsafe.Slice((*float64)(C.Clp_primalColumnSolution(e.m)), n)...),
		dual:  append([]float64(nil), unsafe.Slice((*float64)(C.Clp_dualRowSolution(e.m)), len(e.l.rowLo))...),
		value: float64(C.Clp_objectiveValue(e.m)),
	}, true, nil
}

// iterate solves by one method, as many iterations at a time as take a tenth of a
// second or so, whatever the clock says: what it comes to depends on no clock unless
// halt ends it.
func (e *loaded) iterate(halt func() bool, method func()) {
	step := max(200, 400_000/(len(e.l.rowLo)+1))
	for left := e.l.patience(); left > 0 && !halt(); left -= step {
		C.Clp_setMaximumIterations(e.m, C.int(min(step, left)))
		if method(); C.Clp_status(e.m) != outOfIterations {
			return
		}
	}
}

// outOfIterations is the engine's word for a solve that has used up its iterations.
const outOfIterations = 3

func (e *loaded) optimal() bool { return C.Clp_status(e.m) == 0 }

// widen hands over the columns that are new.
func (e *loaded) widen() bool {
	from := e.cols
	if e.cols = len(e.l.cols); from == e.cols {
		return false
	}
	start, index, value := columnwise(e.l.cols[from:])
	C.Clp_addColumns(e.m, C.int(e.cols-from), at(e.l.lo[from:]), at(e.l.up[from:]), at(e.l.cost[from:]), intsAt(start), intsAt(index), at(value))
	return true
}

// columnwise lays columns end to end.
func columnwise(cols [][]entry) (start, index []C.int, value []float64) {
	start = make([]C.int, 1, len(cols)+1)
	for _, c := range cols {
		for _, e := range c {
			index = append(index, C.int(e.row))
			value = append(value, e.coef)
		}
		start = append(start, C.int(len(index)))
	}
	return start, index, value
}

func at(v []float64) *C.double { return (*C.double)(unsafe.SliceData(v)) }

func intsAt(v []C.int) *C.int { return unsafe.SliceData(v) }
