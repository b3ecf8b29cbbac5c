package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// steady says whether the decision is known to stand from a near value, where it does, to
// a far one. A no is no answer: it may stand all the same.
//
// One of the two values is the worse for every set that has to do with the figure: the
// dearer price, the greater chance of breaking, the lower grade. Going from the better to
// it no set becomes cheaper and none becomes possible that wasn't:
//
//   - a price or a breakage only adds to what a line comes to on average, but for what
//     keptMore allows for, and to cash,
//     and to what counts against breakage and completion;
//   - a grade costs nothing, and as long as it stays within uniform's bounds only the
//     mean asks about it.
//
// So between the two the sets that keep to the decision cost at most what they do at the
// worse, and the others at least what they do at the better:
//
//	kept(worse) <= others(better): it stands all the way.
//
// Where the others don't have to do with the figure, as most often, they cost the same
// everywhere, this is exact, and halving the way finds the nearest turn. A price after
// strip may also save: it fills the plater's minimum in full, while it is paid only if
// the piece comes and isn't sent back. saving is how much that can be.
//
// A budget on what the owner is quoted is the exception where a minimum may be short: a cent
// more is marked up and rounded in its line, a cent less to the minimum with all charges, so
// that the quote may fall by a cent while the price rises.
func (t *turning) steady(near, far int64) (bool, error) {
	if t.figure == choice.FigurePlating && !t.c.Sent && t.st.Job.BudgetOn == catalog.OnQuote && t.st.Job.Budget.Set &&
		t.st.Quote.Plating > 0 && t.st.Platers[t.c.Plater].Minimum > 0 {
		return false, nil
	}
	a, err := t.verdict(near)
	if err != nil || t.stopped || t.tired {
		return false, err
	}
	b, err := t.verdict(far)
	if err != nil || t.stopped || t.tired {
		return false, err
	}
	better, worse := a, b
	if !t.taken {
		better, worse = b, a
	}
	saving := t.saving(far - near)
	if worse.kept == none {
		if t.taken || saving > 0 {
			return false, nil
		}
		other, err := t.below(&better.others, none)
		return !other && !t.stopped, err
	}
	limit := none
	if saving > 0 && t.st.Job.BudgetOn == catalog.OnExpected && t.st.Job.Budget.Set {
		limit = int64(t.st.Job.Budget.V - t.mostKept()) // what is beyond it at one end may be within it before the other
	}
	if sum := worse.kept + 2*saving; sum <= limit {
		other, err := t.below(&better.others, sum)
		if err != nil || t.stopped || !other {
			return err == nil && !t.stopped, err
		}
	}
	return t.linear(near, far)
}

// saving is by how much a set may become cheaper, in cents, while the price after strip
// rises by so much: n (1 - c (1-r)) of every cent, and what is rounded, in every slot
// where the plater's minimum may be short.
func (t *turning) saving(rise int64) int64 {
	if t.figure == choice.FigureBreakage {
		return t.keptMore(rise)
	}
	if t.figure != choice.FigurePlating || t.c.Sent || t.st.Platers[t.c.Plater].Minimum == 0 {
		return 0
	}
	sum := int64(0)
	for _, list := range t.at(0).choices {
		for i := range list {
			k := &list[i]
			unpaid := catalog.One - catalog.Both(k.Usable(), catalog.One-k.Refused)
			if plan.SameChoice(k, t.c) && unpaid > 0 {
				n := int64(choice.Needed(&t.st.Slots[k.Slot]))
				sum += n*int64(catalog.Of(unpaid, catalog.Cents(min(rise, int64(t.st.Platers[t.c.Plater].Minimum))))) + n + 2
			}
		}
	}
	return sum
}

// keptMore is by how much a set may come to less, in what sets are compared by, while a
// piece breaks so much more often: where one of the object's own stands in for it whose
// keeping is worth more than it costs.
func (t *turning) keptMore(rise int64) (sum int64) {
	for s, list := range t.at(0).choices {
		most := catalog.Cents(0)
		for i := range list {
			most = max(most, list[i].Keeps-choice.FallbackCost(t.st, &list[i]))
		}
		if most > 0 {
			n := int64(choice.Needed(&t.st.Slots[s]))
			sum += n*int64(catalog.Of(catalog.Micro(min(rise, int64(catalog.One))), most)) + n + 2
		}
	}
	return sum
}

// derivations are the choices for the slots that the piece fits, with the figure at one
// value: per slot, none for the others.
type derivations struct {
	st      *catalog.State
	choices [][]plan.Choice
}

// at derives the choices at a distance.
func (t *turning) at(distance int64) *derivations {
	if d := t.derived[distance]; d != nil {
		return d
	}
	moved, adjust := t.lever.Moved(t.st, t.value(distance))
	d := &derivations{moved, make([][]plan.Choice, len(t.st.Slots))}
	for s := range t.st.Slots {
		if !choice.FitsSlot(&t.st.Pieces[t.c.Piece], s) {
			continue
		}
		d.choices[s] = choice.ChoicesFor(moved, s)
		for i := range d.choices[s] {
			if adjust != nil {
				adjust(&d.choices[s][i])
				choice.AddUp(&d.choices[s][i])
			}
		}
	}
	t.derived[distance] = d
	return d
}

// uniform gives the last value, up to one, to which a figure means the same for every
// rule: of a grade, that it keeps every floor it keeps at the start and no other, and
// is near in a match to what it is near to there. Other figures mean the same everywhere.
//
// Every choice with the piece follows the figure one to one, or not at all: capped by a
// fitting, or better than it by cleaning. As long as each does what it did before, the
// difference between two of them grows only, or falls only; so what is the same at both
// ends, and on the same side of a match, is the same in between. Once it isn't it never
// is again: the end is found by halving, without solving anything.
func (t *turning) uniform(from, to int64) int64 {
	if t.figure != choice.FigureGrade || t.alike(from, to) {
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
