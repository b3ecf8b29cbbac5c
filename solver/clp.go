//go:build cgo

package solver

// #cgo pkg-config: clp
// #include "Clp_C_Interface.h"
import "C"

import (
	"runtime"
	"sync/atomic"
	"unsafe"

	"github.com/lanl/clp"
)

// EngineName says by what linear programs are solved.
const EngineName = "CLP"

// clpEngine is COIN-OR's, and this the only file that knows it. A linear program that
// is solved once goes through the clp package; one that stays while bounds change and
// columns come in goes through the engine's own C interface, which the package has no
// way to: it keeps the basis.
type clpEngine struct{}

var builtIn engine = clpEngine{}

var lpCount atomic.Int64

func (clpEngine) once(l *linear) (sol solution, ok bool) {
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
	return sol, status == clp.Optimal
}

// clpLoaded is one that stays.
type clpLoaded struct {
	l    *linear
	m    unsafe.Pointer
	cols int // how many of l's columns the engine has
}

func (clpEngine) load(l *linear) loaded {
	e := &clpLoaded{l: l, m: C.Clp_newModel(), cols: len(l.cols)}
	C.Clp_setLogLevel(e.m, 0)
	// Rows come scaled. The engine's own scaling took a fifth of the time, and what it gave
	// was further from the optimum of what it was asked: searches took more nodes.
	C.Clp_scaling(e.m, 0)
	start, index, value := columnwise(l.cols)
	C.Clp_loadProblem(e.m, C.int(len(l.cols)), C.int(len(l.rowLo)), intsAt(start), intsAt(index), at(value),
		at(l.lo), at(l.up), at(l.cost), at(l.rowLo), at(l.rowHi))
	return e
}

func (e *clpLoaded) close() {
	C.Clp_deleteModel(e.m)
	e.m = nil
}

func (e *clpLoaded) resolve(halt func() bool) (sol solution, ok bool) {
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
		return sol, false
	}
	n := len(e.l.cols)
	return solution{
		x:     append([]float64(nil), unsafe.Slice((*float64)(C.Clp_primalColumnSolution(e.m)), n)...),
		dual:  append([]float64(nil), unsafe.Slice((*float64)(C.Clp_dualRowSolution(e.m)), len(e.l.rowLo))...),
		value: float64(C.Clp_objectiveValue(e.m)),
	}, true
}

// iterate solves by one method, as many iterations at a time as take a tenth of a
// second or so, whatever the clock says: what it comes to depends on no clock unless
// halt ends it.
func (e *clpLoaded) iterate(halt func() bool, method func()) {
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

func (e *clpLoaded) optimal() bool { return C.Clp_status(e.m) == 0 }

// widen hands over the columns that are new.
func (e *clpLoaded) widen() bool {
	from := e.cols
	if e.cols = len(e.l.cols); from == e.cols {
		return false
	}
	start, index, value := columnwise(e.l.cols[from:])
	C.Clp_addColumns(e.m, C.int(e.cols-from), at(e.l.lo[from:]), at(e.l.up[from:]), at(e.l.cost[from:]), intsAt(start),
		intsAt(index), at(value))
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
