package sharedspare

import (
	"brightset/model/choice"
	"brightset/model/plan"
)

// RescuesToExpect is how many slots of a plan need a rescue on average. Two that share
// a spare need one where both fail, and one more where the spare fails too.
func RescuesToExpect(plan *plan.Plan) float64 {
	sum := 0.0
	for i := range plan.Lines {
		l := &plan.Lines[i]
		rescued := float64(choice.BothFail(l.Choice, l.Fallback)) / float64(choice.Certain)
		if l.Sharing != nil && l.Sharing.Yields {
			other := &plan.Lines[i]
			for o := range plan.Lines {
				if plan.Lines[o].Slot == l.Sharing.With {
					other = &plan.Lines[o]
				}
			}
			p, q := float64(l.Choice.Fails)/1e6, float64(other.Choice.Fails)/1e6
			rescued = p*(1-q)*float64(l.Fallback.Fails)/1e6 + p*q
		}
		sum += rescued
	}
	return sum
}
