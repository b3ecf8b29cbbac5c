package solver

// simplexEngine is ours: a dual and a primal simplex method for bounded variables. It
// needs nothing but Go.
type simplexEngine struct{}

func (simplexEngine) once(l *linear) (solution, bool) {
	return simplexEngine{}.load(l).resolve(func() bool { return false })
}

func (simplexEngine) load(l *linear) loaded {
	s := &simplex{l: l, m: len(l.rowLo)}
	s.start()
	return s
}

// simplex is a linear program that stays. Row i has a variable of its own, number i, that
// makes it an equation, A x + s = 0; column j of the linear program is number m+j.
// Everything is scaled: rows and columns by powers of two that bring their coefficients
// near one, costs by one that brings the usual cost near one.
type simplex struct {
	l *linear
	m int

	cols      sparse // per variable
	rows      sparse // per row, the columns of the linear program in it
	rowScale  []float64
	colScale  []float64
	costScale float64

	cost    []float64 // per variable, as it is
	shifted []float64 // as the dual method takes it
	lo, up  []float64

	head   []int32 // per place, the variable that is basic there
	at     []int8  // per variable
	x      []float64
	d      []float64 // reduced cost by shifted
	y      []float64 // multipliers, per row
	weight []float64 // of steepest edges, per place
	fac    factor

	row   sparseRow // of the place that changes
	rho   []float64
	alpha []float64 // the column that comes in
	tau   []float64
	devex []float64 // of the primal method, per variable
	flips []int32
	steps int // left
}

// Where a variable is.
const (
	atLower int8 = iota
	atUpper
	basic
	held // at its lower bound, which is its upper one too
)

// How much a value may be beyond its bounds, and a reduced cost on its wrong side.
const (
	primalTolerance = 1e-9
	dualTolerance   = 1e-9

	tinyPivot = 1e-7 // of a pivot; below it the basis is eliminated anew first
)

func (s *simplex) close() {}

// variables is how many there are.
func (s *simplex) variables() int { return len(s.cost) }

func (s *simplex) fixed(j int) bool { return s.lo[j] == s.up[j] }

// resolve brings bounds and columns up to date, and makes the last basis feasible and
// optimal: feasible by the dual method, for which costs that stand against it are shifted
// first, then optimal by the primal one.
func (s *simplex) resolve(halt func() bool) (sol solution, ok bool) {
	s.update()
	s.steps = s.l.patience()
	for range 20 {
		copy(s.shifted, s.cost)
		if !s.refresh() {
			return sol, false
		}
		switch {
		case halt() || s.steps <= 0:
			return sol, false
		case !s.primalFeasible():
			s.flipBoxed()
			s.shift()
			if !s.dual(halt) {
				return sol, false
			}
		case !s.dualFeasible():
			if !s.primal(halt) {
				return sol, false
			}
		default:
			return s.solution(), true
		}
	}
	return sol, false
}

// refresh eliminates the basis anew and works out values and reduced costs by it.
func (s *simplex) refresh() bool {
	if !s.refactor() {
		return false
	}
	s.values()
	s.prices()
	return true
}

func (s *simplex) primalFeasible() bool {
	for _, j := range s.head {
		if s.beyond(int(j)) > primalTolerance {
			return false
		}
	}
	return true
}

// beyond is how far a variable is outside its bounds.
func (s *simplex) beyond(j int) float64 { return max(s.lo[j]-s.x[j], s.x[j]-s.up[j]) }

func (s *simplex) dualFeasible() bool {
	for j := range s.variables() {
		if s.wrong(j) > dualTolerance {
			return false
		}
	}
	return true
}

// wrong is how much a variable that is not basic would improve the objective per unit.
func (s *simplex) wrong(j int) float64 {
	switch s.at[j] {
	case atLower:
		return -s.d[j]
	case atUpper:
		return s.d[j]
	}
	return 0
}

// solution puts the answer in the terms of the linear program.
func (s *simplex) solution() solution {
	n := len(s.l.cost)
	sol := solution{x: make([]float64, n), dual: make([]float64, s.m)}
	for j := range n {
		k := s.m + j
		sol.x[j] = min(max(s.x[k], s.lo[k]), s.up[k]) * s.colScale[j]
		sol.value += sol.x[j] * s.l.cost[j]
	}
	for i := range s.m {
		sol.dual[i] = s.y[i] * s.rowScale[i] / s.costScale
	}
	return sol
}
