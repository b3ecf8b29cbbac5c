package risk

import "brightset/model/plan"

// DaysOf is the first day by which a plan's set hangs with a chance of q, and nothing
// else of what RiskOf works out.
func DaysOf(p *plan.Plan, q float64) int {
	r := &Risk{Plan: p}
	for i := range p.Lines {
		r.lines = append(r.lines, Outcomes(p.Of, &p.Lines[i]))
	}
	return r.Days(q)
}
