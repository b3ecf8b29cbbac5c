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
//	|grade - grade'| <= grade_within     |tone - tone'| <= tone_within
//	plater = plater', if both are or were plated and same_plater
//	fresh = fresh', if fresh_alike
//
// Pieces that are seen together look alike.
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
