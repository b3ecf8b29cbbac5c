package program

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// TagMatch marks the rules of a match group.
func TagMatch(id string) solver.Tag { return solver.Tag("match " + id) }

// matches, for every two chosen k's of a match group:
//
//	|grade - grade'| <= grade_within     |tone - tone'| <= tone_within - drift
//	plater = plater', if both are or were plated and same_plater
//	fresh = fresh', if fresh_alike
//
// Pieces that are seen together look alike. drift is the plater's between his lots, for two
// pieces that he plates, or plated, in different ones and that have not both been seen.
func (p *Program) matches() {
	for i := range p.State.Matches {
		m := &p.State.Matches[i]
		slots := slices.Clone(m.Slots)
		slices.Sort(slots)
		slots = slices.Compact(slots)
		if len(slots) < 2 {
			continue
		}
		if m.GradeWithin.Set {
			p.near(m, "grade", slots, m.GradeWithin.V, func(k *plan.Choice) catalog.Centi { return k.Grade })
		}
		if m.ToneWithin.Set {
			p.near(m, "tone", slots, m.ToneWithin.V, func(k *plan.Choice) catalog.Centi { return k.Tone })
			p.drifts(m, slots)
		}
		if m.SamePlater {
			p.same(m, "plater", slots, func(k *plan.Choice) int { return choice.PlatedBy(p.State, k) })
		}
		if m.FreshAlike {
			p.same(m, "fresh", slots, func(k *plan.Choice) int {
				if k.Fresh {
					return 1
				}
				return 0
			})
		}
	}
}

func (p *Program) near(m *catalog.Match, what string, slots []int, within catalog.Centi,
	value func(*plan.Choice) catalog.Centi) {
	n := solver.WithinTolerance{Name: "match " + m.ID + " " + what, Groups: slots, Tolerance: int64(within),
		Tag: TagMatch(m.ID)}
	for _, s := range slots {
		values := make([]int64, len(p.Pairs[s]))
		for i := range values {
			values[i] = int64(value(&p.Choices[s][p.Pairs[s][i].K]))
		}
		n.Values = append(n.Values, values)
	}
	p.Problem.WithinTolerance = append(p.Problem.WithinTolerance, n)
}

// same relies on catalog.None being negative: a piece that is not plated goes
// with any plater.
func (p *Program) same(m *catalog.Match, what string, slots []int, label func(*plan.Choice) int) {
	n := solver.AllEqual{Name: "match " + m.ID + " " + what, Groups: slots, Tag: TagMatch(m.ID)}
	for _, s := range slots {
		labels := make([]int, len(p.Pairs[s]))
		for i := range labels {
			labels[i] = label(&p.Choices[s][p.Pairs[s][i].K])
		}
		n.Labels = append(n.Labels, labels)
	}
	p.Problem.AllEqual = append(p.Problem.AllEqual, n)
}

// drifts keeps apart what is near enough in tone but for the drift: for every lot that has
// gone and tone in it, of the choices in one slot, what would have to match it in another.
func (p *Program) drifts(m *catalog.Match, slots []int) {
	if !slices.ContainsFunc(p.State.Platers, func(q catalog.Plater) bool { return q.Drift > 0 }) {
		return
	}
	type finish struct {
		lot  choice.Lot
		tone catalog.Centi
	}
	of := func(s, i int) finish {
		k := &p.Choices[s][p.Pairs[s][i].K]
		return finish{choice.LotOf(p.State, k), k.Tone}
	}
	for _, s := range slots {
		var gone []finish
		for i := range p.Pairs[s] {
			if f := of(s, i); f.lot.Sent && !slices.Contains(gone, f) {
				gone = append(gone, f)
			}
		}
		for _, g := range gone {
			p.apart(m, slots, func(slot, i int) int {
				f := of(slot, i)
				drift := choice.Drift(p.State, g.lot, f.lot)
				switch off := max(f.tone-g.tone, g.tone-f.tone); {
				case slot == s && f == g:
					return 0
				case slot != s && drift > 0 && off > m.ToneWithin.V-drift:
					return 1
				}
				return catalog.None
			})
		}
	}
}

// apart adds the rule that columns with label 0 don't go with those with label 1, where
// there are both.
func (p *Program) apart(m *catalog.Match, slots []int, label func(slot, column int) int) {
	n := solver.AllEqual{Name: "match " + m.ID + " drift", Groups: slots, Tag: TagMatch(m.ID)}
	seen := [2]bool{}
	for _, s := range slots {
		labels := make([]int, len(p.Pairs[s]))
		for i := range labels {
			if labels[i] = label(s, i); labels[i] >= 0 {
				seen[labels[i]] = true
			}
		}
		n.Labels = append(n.Labels, labels)
	}
	if seen[0] && seen[1] {
		p.Problem.AllEqual = append(p.Problem.AllEqual, n)
	}
}
