package ask

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// linear is the second reason why a decision stands all the way from a near value to a
// far one, for where others pay for the figure as well: the piece in another slot, held in
// reserve, or done otherwise.
//
// What a set costs is, but for rounding, a straight line in the figure. A set that keeps
// to the decision and is possible at the worse end is so all the way. If at both ends no
// other set is cheaper than it, by more than can be rounded, then none is in between:
//
//	X(better) + m <= others(better)   and   X(worse) + m <= others(worse)
//
// where X is one that keeps to it and is possible at the worse end. An other set that is possible
// somewhere between is possible at the better end; at the worse it need not be any more,
// so there the others are asked for without the demands that the figure counts in.
func (t *turning) linear(near, far int64) (bool, error) {
	if !t.mayBeLinear(near, far) {
		return false, nil
	}
	b, w := t.ends(near, far)
	x, margin := t.lineBelow(near, far)
	if x < 0 {
		return false, nil
	}
	if other, err := t.below(&b.others, b.keeping[x]+margin); err != nil || t.open() || other {
		return false, err
	}
	if other, err := t.below(&w.others, w.keeping[x]+margin); err != nil || t.open() || other {
		return false, err
	}
	worse := near
	if t.taken {
		worse = far
	}
	bare, err := t.undemanding(worse)
	if err != nil || t.open() {
		return false, err
	}
	other, err := t.below(&bare.others, w.keeping[x]+margin)
	return err == nil && !t.open() && !other, err
}

// ends are what is known at the better and the worse of two values that were looked at.
func (t *turning) ends(near, far int64) (better, worse *verdict) {
	if t.taken {
		return t.known[near], t.known[far]
	}
	return t.known[far], t.known[near]
}

func (t *turning) mayBeLinear(near, far int64) bool {
	return t.figure != choice.FigureGrade && t.straight(near, far)
}

// lineBelow is a set that keeps to the decision and that no other is known to be below at two
// values, with the margin that linear asks for; -1 where there is none.
func (t *turning) lineBelow(near, far int64) (x int, margin int64) {
	b, w := t.ends(near, far)
	x, room := cheapAtBoth(b, w)
	if x < 0 {
		return x, 0
	}
	e, err := t.explorer(w)
	if err != nil || t.open() {
		return -1, 0
	}
	lines := e.Plan(w.setAt(&t.sets[x])).Lines
	margin = 2 * (t.rounding(near, far) + t.roundingOf(lines, near, far))
	if room < margin || t.budgeted() && b.keeping[x]+margin > int64(t.st.Job.Budget.V-t.mostKept())+1 {
		return -1, 0
	}
	return x, margin
}

// cheapAtBoth is the set that keeps to the decision and is furthest below the others that are known
// at two values, and by how much at the one where it is less so; -1 where none is below them at both.
func cheapAtBoth(a, b *verdict) (at int, most int64) {
	at, most = -1, -1
	for n := range min(len(a.keeping), len(b.keeping)) {
		if a.keeping[n] == none || b.keeping[n] == none {
			continue
		}
		room := none
		for _, v := range []*verdict{a, b} {
			if v.others.hi < none {
				room = min(room, v.others.hi-v.keeping[n])
			}
		}
		if room > most {
			at, most = n, room
		}
	}
	return at, most
}

// budgeted says whether a budget on what is expected may be all that keeps other sets out:
// where there are none they cost that at least.
func (t *turning) budgeted() bool {
	return t.st.Job.BudgetOn == catalog.OnExpected && t.st.Job.Budget.Set
}

// mostKept is what no set keeps more than.
func (t *turning) mostKept() (sum catalog.Cents) {
	for s := range t.st.Slots {
		sum += t.st.Slots[s].Keep
	}
	return sum
}

// straight says whether costs follow straight lines between two values. They don't where
// a slot needs several pieces that may break, where a chance comes to nothing or to one,
// and where a lot may stay below the plater's minimum.
func (t *turning) straight(near, far int64) bool {
	if t.figure == choice.FigurePrice {
		return true
	}
	return t.moved(near, far, func(k, l *plan.Choice) bool {
		if t.figure == choice.FigureBreakage {
			return choice.Needed(&t.st.Slots[k.Slot]) == 1 && inside(k.Fails) && inside(l.Fails)
		}
		least := catalog.Cents(1)
		if k.InLot() {
			least = max(least, t.st.Platers[k.Plater].Minimum)
		}
		return k.Plate >= least && l.Plate >= least
	})
}

func inside(c catalog.Micro) bool { return c > 0 && c < catalog.One }

// moved says whether something is true of every choice that is another at two values.
func (t *turning) moved(near, far int64, is func(k, l *plan.Choice) bool) bool {
	a, b := t.at(near), t.at(far)
	for s := range a.choices {
		for i := range a.choices[s] {
			k, l := &a.choices[s][i], &b.choices[s][i]
			if (k.Get != l.Get || k.Plate != l.Plate || k.Breakage != l.Breakage) && !is(k, l) {
				return false
			}
		}
	}
	return true
}

// rounding is by how many cents a set may be off a straight line: in as many slots as
// there are pieces.
func (t *turning) rounding(near, far int64) int64 {
	worst, slots := int64(0), int64(0)
	t.moved(near, far, func(k, l *plan.Choice) bool {
		worst = max(worst, t.roundingIn(k, false), t.roundingIn(k, true))
		return true
	})
	for s := range t.st.Slots {
		if choice.FitsSlot(&t.st.Pieces[t.c.Piece], s) {
			slots++
		}
	}
	return worst * min(slots, int64(choice.PieceCount(&t.st.Pieces[t.c.Piece])))
}

// roundingOf is the same of the lines of one set.
func (t *turning) roundingOf(lines []plan.Line, near, far int64) int64 {
	sum := int64(0)
	for i := range lines {
		if c := lines[i].Choice; c.Piece == t.c.Piece {
			sum += t.roundingIn(c, false)
		}
		if f := lines[i].Fallback; f != nil && f.Piece == t.c.Piece {
			sum += t.roundingIn(f, true)
		}
	}
	return sum
}

// roundingIn is the same of one line, upwards to whole cents. A sum of money is rounded
// each time a chance is taken of it, by half a cent; a chance three times, by half a
// millionth, of what it costs if the line fails.
func (t *turning) roundingIn(c *plan.Choice, reserve bool) int64 {
	halves := int64(0)
	if c.Usable() < catalog.One {
		halves++
	}
	if t.figure == choice.FigurePlating && c.Refused > 0 {
		halves++
	}
	if reserve {
		halves++
	}
	if t.figure != choice.FigureBreakage {
		return (halves + 1) / 2
	}
	most := choice.Rescue(t.st, c.Slot)
	for i := range t.forSlot(c.Slot, 0) {
		most = max(most, choice.FallbackCost(t.st, &t.forSlot(c.Slot, 0)[i]))
	}
	keep := t.st.Slots[c.Slot].Keep
	return 2 + 2*int64(most+keep)/int64(catalog.One) + min(1, int64(keep))
}

// undemanding is what is known at a distance of the sets that are possible without the demands
// that the figure counts in; nil where time was up.
func (t *turning) undemanding(distance int64) (*verdict, error) {
	if v := t.relaxed[distance]; v != nil {
		return v, nil
	}
	if t.bare == nil {
		t.bare = t.withoutDemands()
	}
	if t.stopped = t.stopped || t.bare.GaveUp; t.stopped {
		return nil, nil
	}
	v, err := t.newVerdict(distance, t.bare)
	if err == nil && !t.stopped {
		t.relaxed[distance] = v
	}
	return v, err
}

func (t *turning) withoutDemands() *program.Program {
	st := t.st.Clone()
	breaks := t.figure == choice.FigureBreakage
	if !breaks || st.Job.BudgetOn == catalog.OnExpected {
		st.Job.Budget.Set = false
	}
	if breaks {
		st.Job.Completion.Set = false
		for s := range st.Slots {
			st.Slots[s].MaxBreakage.Set = false
		}
	}
	return program.CompileWithin(t.ctx, st, program.Options{FixedLimits: true, Keep: t.base.Options.Keep})
}
