package ask

import (
	"reflect"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// found is a set that was found, with the figure at some value.
type found struct {
	in   *solver.Problem
	pick []int
	on   []bool
}

// way is a choice for the slot, and what no set with it is below as the figures are.
type way struct {
	choice *plan.Choice
	least  int64
}

// recall has a verdict know what follows from the sets that were found at other values, and
// since: each comes to something at this one, too, or is not possible here.
func (t *turning) recall(v *verdict) {
	for n := len(v.keeping); n < len(t.sets) && v.e != nil && !v.empty; n++ {
		v.keeping = append(v.keeping, none)
		if res := v.setAt(&t.sets[n]); res.Has {
			v.others.offer(res)
			if v.kept.offer(res) {
				v.keeping[n] = res.Total
			}
		}
	}
}

// setAt is a set that was found elsewhere, here.
func (v *verdict) setAt(f *found) (res solver.Result) {
	c := v.carriers[f.in]
	if c == nil {
		c = solver.NewCarrier(f.in, v.e.Problem)
		v.carriers[f.in] = c
	}
	pick, voluntary := c.Carry(f.pick, f.on)
	if pick == nil {
		return res
	}
	o := v.e.Problem.Evaluate(pick, voluntary, solver.Change{})
	return solver.Result{Has: len(o.Broken) == 0, Pick: pick, On: o.On, Charge: o.Charge, Total: o.Total}
}

// carry has a verdict know what no set is below, from what is known where the figure is better:
// what is possible here is so there, and comes to no more but for what a plater's minimum may make
// up for. What a line of the slot itself rises by is seen in the two programs.
func (t *turning) carry(v *verdict, distance int64) {
	if distance == 0 {
		if !t.asPlanned(v) {
			t.ways = nil
		}
		r := &rise{t, make([]int64, len(v.lines)), none}
		r.carry(&v.kept, t.leastWith)
		r.carry(&v.others, t.leastWith)
	}
	if t.erratic() {
		return
	}
	for _, d := range t.better(distance) {
		from := t.known[d]
		if from.empty || !t.sameRules(d, distance) {
			continue
		}
		r := t.riseOf(from, v)
		r.carry(&v.kept, func(*plan.Choice) int64 { return from.kept.lo })
		r.carry(&v.others, func(c *plan.Choice) int64 {
			if d == 0 {
				return max(from.others.lo, t.leastWith(c))
			}
			return from.others.lo
		})
	}
}

// asPlanned says whether the program with the figure as it is, put in by itself, is the one that was
// asked about the ways. It may not be: a quote that names no grade has one then in every slot.
func (t *turning) asPlanned(v *verdict) bool {
	return reflect.DeepEqual(v.e.Problem, t.base.Problem)
}

// carryUnmatched has a verdict on a grade know what no other set is below from what is known
// without the matches that ask about it, where it is best: they may let something in while it
// falls. One question tells of all values.
func (t *turning) carryUnmatched(v *verdict) error {
	if t.figure != choice.FigureGrade || !t.gradeMatched() {
		return nil
	}
	if t.unmatched == nil {
		st, best := t.st.Clone(), int64(0)
		st.Matches = slices.DeleteFunc(slices.Clone(st.Matches), t.asksGrade)
		if !t.taken {
			best = t.steps
		}
		like := program.CompileWithin(t.ctx, st, program.Options{FixedLimits: true, Keep: t.base.Options.Keep})
		var err error
		if t.stopped = t.stopped || like.GaveUp; !t.stopped {
			t.unmatched, err = t.newVerdict(best, like)
		}
		if err != nil || t.stopped {
			return err
		}
		if err := t.askLeast(&t.unmatched.others); err != nil || t.open() {
			return err
		}
	}
	v.others.lo = max(v.others.lo, min(t.unmatched.others.lo, v.others.hi))
	return nil
}

// better are the distances at which the figure is better that tell most of one: the nearest that
// is known, and the furthest.
func (t *turning) better(distance int64) []int64 {
	nearest, furthest := distance, distance
	for d := range t.known {
		if (d < distance) != t.taken || d == distance {
			continue
		}
		if nearest == distance || (d > nearest) == t.taken {
			nearest = d
		}
		if furthest == distance || (d < furthest) == t.taken {
			furthest = d
		}
	}
	switch {
	case nearest == distance:
		return nil
	case nearest == furthest:
		return []int64{nearest}
	}
	return []int64{nearest, furthest}
}

// leastWith is what no set with a choice for the slot is below as the figures are.
func (t *turning) leastWith(c *plan.Choice) int64 {
	for i := range t.ways {
		if plan.SameChoice(t.ways[i].choice, c) {
			return t.ways[i].least
		}
	}
	return -none
}

// sameRules says whether what is possible at the worse of two values is so at the better.
func (t *turning) sameRules(a, b int64) bool { return t.uniform(min(a, b), max(a, b)) == max(a, b) }

// rise is by how much every line of the slot is dearer with the figure at one value than at
// a better one.
type rise struct {
	t     *turning
	lines []int64 // by column; at most what it really is
	// beyond is what the sets come to at least that are not possible at the better value, but are at
	// the worse.
	beyond int64
}

// riseOf compares a better value with a worse.
func (t *turning) riseOf(better, worse *verdict) *rise {
	r := &rise{t, make([]int64, len(worse.lines)), none}
	far := max(better.distance, worse.distance) - min(better.distance, worse.distance)
	rest, all := t.saving(far, t.slot), t.saving(far, catalog.None)
	if all > 0 && t.budgeted() {
		r.beyond = int64(t.st.Job.Budget.V-t.mostKept()) - 2*all
	}
	was := map[string]*solver.Column{}
	for i := range better.columns {
		was[better.columns[i].Name] = &better.columns[i]
	}
	for i := range r.lines {
		c := &worse.columns[i]
		if old := was[c.Name]; old != nil {
			r.lines[i] = c.Cost - old.Cost - t.madeUp(old, c) - 2*rest
		} else { // another line of the choice made it needless
			r.lines[i] = -2 * all
		}
	}
	return r
}

// madeUp is by how much less the plater's minimum may ask for, at most, with a line that brings him
// more.
func (t *turning) madeUp(old, c *solver.Column) int64 {
	if t.figure != choice.FigurePlating {
		return 0
	}
	more := int64(0)
	for _, l := range old.Loads {
		if l.Switch == t.base.PlaterSwitch(t.c.Plater) {
			more -= l.Amount
		}
	}
	for _, l := range c.Loads {
		if l.Switch == t.base.PlaterSwitch(t.c.Plater) {
			more += l.Amount
		}
	}
	return max(0, min(more, int64(t.st.Platers[t.c.Plater].Minimum)))
}

// carry raises what no set of a level is below to what follows from where it was, by choice
// for the slot.
func (r *rise) carry(l *level, was func(*plan.Choice) int64) {
	banned := make([]bool, len(r.lines))
	for _, b := range l.ban {
		if b.Group == r.t.slot {
			banned[b.Column] = true
		}
	}
	least := none
	for i, rises := range r.lines {
		if banned[i] {
			continue
		}
		lo := was(&r.t.base.Choices[r.t.slot][l.of.lines[i].K])
		switch lo {
		case none: // there is none with it
			continue
		case -none:
			return
		}
		least = min(least, lo+rises)
	}
	l.lo = max(l.lo, min(least, r.beyond, l.hi))
}
