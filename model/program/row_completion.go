package program

import (
	"math"

	"brightset/catalog"
	"brightset/solver"
)

// TagCompletion marks the completion row.
const TagCompletion solver.Tag = "completion"

// completionRow:
//
//	sum over slots of round(-1e6 ln(1 - p_k p_f)) <= floor(-1e6 ln completion) + slots
//
// The chance that no slot needs a rescue is as high as asked, with p_f = 1 where
// there is no fallback. One more per slot makes up for the rounding of its term.
func (p *Program) completionRow() {
	limit := NoLimit
	if c := p.State.Job.Completion; c.Set {
		limit = CompletionLimit(p.State, c.V)
	}
	p.row(solver.Row{Name: "completion", Sense: solver.AtMost, Limit: limit, Tag: TagCompletion})
}

// CompletionLimit is the limit of the completion row that asks for a chance.
func CompletionLimit(st *catalog.State, completion catalog.Micro) int64 {
	if completion <= 0 {
		return NoLimit
	}
	return int64(math.Floor(-1e6*math.Log(float64(completion)/float64(catalog.One)))) + int64(len(st.Slots))
}
