package program

import (
	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// TagMean marks the mean row.
const TagMean solver.Tag = "mean"

// meanRow:
//
//	sum over slots of weight grade(k) >= mean * sum of weights
//
// The set as a whole, its slots counted by weight, is finished as well as the
// target asks on average. Written so that another mean is only another limit.
func (p *Program) meanRow() {
	limit := -NoLimit
	if mean := p.State.Job.Target.Mean; mean.Set {
		limit = MeanLimit(p.State, mean.V)
	}
	p.row(solver.Row{Name: "mean", Sense: solver.AtLeast, Limit: limit, Tag: TagMean})
}

// MeanLimit is the limit of the mean row that asks for a weighted mean.
func MeanLimit(st *catalog.State, mean catalog.Centi) int64 { return int64(mean) * TotalWeight(st) }

// Weighted is weight x grade of a choice, in hundredths of hundredths.
func Weighted(st *catalog.State, k *plan.Choice) int64 {
	return int64(st.Slots[k.Slot].Weight) * int64(k.Grade)
}

// TotalWeight is the sum of the weights of all slots, in hundredths.
func TotalWeight(st *catalog.State) int64 {
	sum := int64(0)
	for i := range st.Slots {
		sum += int64(st.Slots[i].Weight)
	}
	return sum
}
