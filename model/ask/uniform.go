package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// uniform gives the last value, up to one, to which what is possible at the worse end is so at
// the better one. It always is, but for a grade that is matched with others': there as far as it
// keeps every floor it keeps at the start and no other, and is near to what it is near to there.
//
// Every choice with the piece follows the figure one to one, or not at all: capped by a
// fitting, or better than it by cleaning. As long as each does what it did before, the
// difference between two of them grows only, or falls only; so what is the same at both
// ends, and on the same side of a match, is the same in between. Once it isn't it never
// is again: the end is found by halving, without solving anything.
func (t *turning) uniform(from, to int64) int64 {
	if t.figure != choice.FigureGrade || !t.gradeMatched() || t.alike(from, to) {
		return to
	}
	if !t.alike(from, from+1) {
		return from
	}
	same, other := from, to
	for other-same > 1 {
		if m := same + (other-same)/2; t.alike(from, m) {
			same = m
		} else {
			other = m
		}
	}
	return same
}

// gradeMatched says whether a match asks about the grade of the piece.
func (t *turning) gradeMatched() bool { return slices.ContainsFunc(t.st.Matches, t.asksGrade) }

// asksGrade says whether a match asks for grades near each other in a slot that the piece fits.
func (t *turning) asksGrade(m catalog.Match) bool {
	return m.GradeWithin.Set && slices.ContainsFunc(m.Slots, func(s int) bool {
		return choice.FitsSlot(&t.st.Pieces[t.c.Piece], s)
	})
}

// alike says whether grades mean the same for every rule at two values.
func (t *turning) alike(from, to int64) bool {
	a, b := t.at(from), t.at(to)
	for s := range a.choices {
		for i := range a.choices[s] {
			k, l := &a.choices[s][i], &b.choices[s][i]
			if k.Piece != t.c.Piece || k.Grade == l.Grade {
				continue
			}
			if int64(l.Grade-k.Grade) != t.way*(to-from) {
				return false
			}
			for _, role := range []program.Role{program.Planned, program.Reserve} {
				if program.Admitted(a.st, k, role) != program.Admitted(b.st, l, role) {
					return false
				}
			}
			if !t.matchedAlike(k, l, from, to) {
				return false
			}
		}
	}
	return true
}

// matchedAlike says whether a choice, at two values, is near to the same choices for the
// slots it is matched with, or as far below or above them.
func (t *turning) matchedAlike(k, l *plan.Choice, from, to int64) bool {
	for i := range t.st.Matches {
		m := &t.st.Matches[i]
		if !m.GradeWithin.Set || !slices.Contains(m.Slots, k.Slot) {
			continue
		}
		for _, s := range m.Slots {
			if s == k.Slot {
				continue
			}
			others, then := t.forSlot(s, from), t.forSlot(s, to)
			for j := range others {
				if side(k.Grade-others[j].Grade, m.GradeWithin.V) != side(l.Grade-then[j].Grade, m.GradeWithin.V) {
					return false
				}
			}
		}
	}
	return true
}

// forSlot gives the choices for a slot at a distance; those that no piece of the figure's
// is among are the same everywhere.
func (t *turning) forSlot(s int, distance int64) []plan.Choice {
	if choice.FitsSlot(&t.st.Pieces[t.c.Piece], s) {
		return t.at(distance).choices[s]
	}
	if t.apart[s] == nil {
		t.apart[s] = choice.ChoicesFor(t.st, s)
	}
	return t.apart[s]
}

// side is 0 for a difference within bounds, else -1 or 1.
func side(difference, within catalog.Centi) int {
	switch {
	case difference < -within:
		return -1
	case difference > within:
		return 1
	}
	return 0
}
