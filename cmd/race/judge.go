package main

import (
	"fmt"
	"math"
	"slices"
)

// evaluate puts an answer, rounded to whole numbers, into the program and adds
// up exactly: its total, and the first thing it breaks ("" for none).
func (m *matrix) evaluate(values map[string]float64) (total int64, broken string) {
	sums := make([]int64, len(m.rows))
	known := 0
	for i := range m.columns {
		c := &m.columns[i]
		raw, ok := values[c.name]
		if ok {
			known++
		}
		v := math.Round(raw)
		if v < 0 || v > c.upper || (c.integer && math.Abs(v-raw) > 1e-4) {
			return 0, fmt.Sprintf("column %s is %g", c.name, raw)
		}
		total += c.cost * int64(v)
		for _, e := range c.entries {
			sums[e.row] += e.value * int64(v)
		}
	}
	if known != len(values) {
		return 0, "it names columns that aren't there"
	}
	for i, sum := range sums {
		if by := m.rows[i].broken(sum); by != 0 {
			return total, fmt.Sprintf("row %s is broken by %d", m.rows[i].name, by)
		}
	}
	return total, ""
}

// broken is by how much a sum breaks the row.
func (r *matrixRow) broken(sum int64) int64 {
	switch r.sense {
	case 'L':
		return max(0, sum-r.right)
	case 'G':
		return max(0, r.right-sum)
	}
	return max(sum-r.right, r.right-sum)
}

// tolerance is how far optima may lie apart, relative.
const tolerance = 1e-6

// judge compares what the solvers say of one program and disqualifies who is
// wrong or has no proof. The best total is the least of any answer that, added
// up again, breaks nothing.
func judge(m *matrix, runs []*outcome) {
	best := int64(math.MaxInt64)
	by := ""
	for _, r := range runs {
		if r.values == nil {
			continue
		}
		r.answered = true
		r.total, r.broken = m.evaluate(r.values)
		if r.broken == "" && r.total < best {
			best, by = r.total, r.solver
		}
	}
	for _, r := range runs {
		r.fault = r.faultAgainst(best, by)
		r.values = nil
	}
}

// faultAgainst says what disqualifies a run, "" if nothing does.
func (r *outcome) faultAgainst(best int64, by string) string {
	differs := func(a, b float64) bool { return math.Abs(a-b) > tolerance*math.Max(1, math.Abs(b)) }
	switch {
	case r.failure != "":
		return "no answer: " + r.failure
	case r.state == infeasible && by != "":
		return fmt.Sprintf("wrong: says infeasible, but %s of %s is feasible", money(best), by)
	case r.state == infeasible:
		return ""
	case r.state == stopped && r.answered && r.broken != "":
		return "no proof within the limit, and " + r.broken
	case r.state == stopped:
		return "no proof within the limit"
	case !r.answered:
		return "no answer: it calls the job proven, but gives none"
	case r.broken != "":
		return "wrong: " + r.broken
	case differs(float64(r.total), float64(best)):
		return fmt.Sprintf("wrong: calls %s optimal, but %s of %s is feasible", money(r.total), money(best), by)
	case differs(r.claim, float64(r.total)):
		return fmt.Sprintf("wrong: says %.2f, but its answer adds up to %s", r.claim/100, money(r.total))
	}
	return ""
}

func money(cents int64) string { return fmt.Sprintf("%.2f", float64(cents)/100) }

// median of a list that is not empty; of an even number the mean of the middle two.
func median(list []float64) float64 {
	s := slices.Sorted(slices.Values(list))
	n := len(s)
	return (s[(n-1)/2] + s[n/2]) / 2
}
