package solver

import "math"

// hold finds the units that the room in the judge's row is counted in. False: there is none.
func (l *layering) hold(j *judge) bool {
	j.unit = 1
	if j.dim < 0 {
		return true
	}
	room := l.dims[j.dim].limit - l.dims[j.dim].least[0]
	unit := int64(0)
	for i := range l.stages {
		for c := range l.stages[i].choices {
			unit = gcd(unit, l.size(j, i, c))
		}
	}
	if unit = max(1, unit); room/unit > tableUnits {
		unit *= (room/unit + tableUnits - 1) / tableUnits
	}
	j.unit, j.units = unit, int(room/unit)
	return room >= 0
}

// size is what a choice takes up of the judge's row beyond the least of its stage.
func (l *layering) size(j *judge, i, c int) int64 {
	if j.dim < 0 {
		return 0
	}
	d := &l.dims[j.dim]
	return coefOf(l.stages[i].choices[c].terms, j.dim) - (d.least[i] - d.least[i+1])
}

// fillTable works out, per stage and room left, the least that the stages from it on come to.
func (l *layering) fillTable(n int) {
	j := &l.judges[n]
	j.table = make([][]float64, len(l.stages)+1)
	j.table[len(l.stages)] = make([]float64, j.units+1)
	cheapest := make([]float64, j.units+1)
	for i := len(l.stages) - 1; i >= 0; i-- {
		j.table[i] = make([]float64, j.units+1)
		add(j.table[i], j.table[i+1], l.steps(n, i, cheapest))
	}
}

// steps is what a stage offers, by rising size and falling cost.
func (l *layering) steps(n, i int, cheapest []float64) (out []step) {
	j := &l.judges[n]
	for u := range cheapest {
		cheapest[u] = math.Inf(1)
	}
	for c := range l.stages[i].choices {
		if size := l.size(j, i, c) / j.unit; size <= int64(j.units) {
			cheapest[size] = min(cheapest[size], l.stages[i].choices[c].rc[n])
		}
	}
	best := math.Inf(1)
	for size, v := range cheapest {
		if v < best {
			best = v
			out = append(out, step{size, v})
		}
	}
	return out
}
