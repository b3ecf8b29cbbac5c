package solver

import (
	"fmt"
	"math"
)

// engine solves linear programs. Nothing it says is trusted: a solution only suggests
// multipliers, of which bound.go makes a bound that holds whatever they are, and picks,
// which are added up again in integers. A bad engine makes a search slow, never wrong.
type engine interface {
	// once solves a linear program of which nothing is kept.
	once(l *linear) (sol solution, ok bool)

	// load takes over a linear program that stays, without solving it.
	load(l *linear) loaded
}

// loaded is a linear program that stays in an engine while its bounds change and columns
// are appended to it; its rows, and the columns it has, stay as they are. It is for one
// goroutine, and has to be closed.
type loaded interface {
	// resolve solves the linear program as it is now, from the last basis. ok is false if
	// the engine found no optimum, for whatever reason: callers must not conclude anything
	// from that. It looks at halt now and then, and gives up when that says so; what it
	// comes to depends on no clock otherwise.
	resolve(halt func() bool) (sol solution, ok bool)

	close()
}

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

// solve has an engine solve the linear program once. ok is false if that found no
// optimum, for whatever reason: callers must not conclude anything from that.
func (l *linear) solve(e engine) (sol solution, ok bool, err error) {
	if err := l.check(); err != nil {
		return sol, false, err
	}
	sol, ok = e.once(l)
	return sol, ok && sol.finite(), nil
}

// finite says whether an answer is made of numbers that can be reckoned with: bounds made
// of others prove what is not so.
func (s *solution) finite() bool {
	const most = 1e100
	usable := func(v float64) bool { return v >= -most && v <= most }
	for _, v := range s.x {
		if !usable(v) {
			return false
		}
	}
	for _, v := range s.dual {
		if !usable(v) {
			return false
		}
	}
	return usable(s.value)
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
