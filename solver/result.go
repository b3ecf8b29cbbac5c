package solver

import "time"

// Settings are the limits of one solve. The zero value works.
type Settings struct {
	TimeLimit  time.Duration    // wall clock; default none
	NodeLimit  int              // default none
	Gap        float64          // of the total: a solution proven to be this close to the best is good enough; default 0
	TotalAlone bool             // of solutions of least total any will do: Result.Settled is not sought
	Goroutines int              // default GOMAXPROCS; never changes the answer
	Progress   func(p Progress) // called now and then from the solving goroutine; default none
}

// Progress is how far a solve has come.
type Progress struct {
	Nodes, Open int
	Has         bool // a solution is in hand
	Total       int64
	Bound       int64
	Elapsed     time.Duration
}

// Status is what is known of the answer. It is separate from Stop, why the
// search ended.
type Status int

const (
	// Optimal: Pick is feasible and nothing is cheaper, proven.
	Optimal Status = iota
	// Infeasible: no pick meets the rows (or, with Change.Below, none is below).
	Infeasible
	// Stopped: the search ended early. Has says whether a solution is in hand.
	Stopped
	// Found: Change.Any was asked for, and Pick is below Change.Below. There may be
	// cheaper ones; none is below Bound.
	Found
)

// String gives the word used in output.
func (s Status) String() string { return [...]string{"optimal", "infeasible", "stopped", "found"}[s] }

// Stop is why the search ended.
type Stop int

const (
	Finished Stop = iota
	TimeLimit
	NodeLimit
	Cancelled
	CloseEnough
)

// String gives the reason in words.
func (s Stop) String() string {
	return [...]string{"finished", "time limit", "node limit", "cancelled", "close enough"}[s]
}

// Result is the answer of one solve.
type Result struct {
	Status Status
	Stop   Stop
	Has    bool    // Pick, On, Charge and Total are valid
	Pick   []int   // column per group
	On     []bool  // per switch
	Charge []int64 // per switch, fixed and shortfall of its minimum; 0 while off
	Total  int64
	// Settled: of all solutions of this total Pick is the one of least Tie, and of those
	// of equal Tie the first in a fixed order. It then depends on the problem and the
	// change alone: not on what was asked before, the goroutines or the clock. Without
	// it, Optimal is still proven for the total, but among solutions of equal total Pick
	// is merely the best that was met. That is so after the fixed amount of work that ties
	// are worth, where a limit of the settings or the context ended that work, and where
	// the problem was solved in Parts.
	Settled bool
	Bound   int64 // no solution has a smaller total; equals Total if optimal
	Nodes   int
	LPs     int
	Time    time.Duration
}
