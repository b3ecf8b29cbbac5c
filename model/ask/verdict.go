package ask

import (
	"slices"

	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// verdict is what the program says at one value of the figure.
type verdict struct {
	distance int64
	like     *program.Program  // what the program is made from
	e        *program.Explorer // nil while it is not in use
	// kept are the sets that keep to the decision: with the advised choice, without the
	// runner-up; others all others, but for those that a swap with a twin turns into one that
	// keeps to it.
	kept, others level
	empty        bool            // a slot has no line
	lines        []program.Pair  // of the slot,
	columns      []solver.Column // their names, costs and loads
	keeping      []int64         // what each of turning's sets comes to here; none if it is not possible or among others
	carriers     map[*solver.Problem]*solver.Carrier
}

// verdict is what is known with the figure at a distance from what it is.
func (t *turning) verdict(distance int64) (*verdict, error) {
	if v := t.known[distance]; v != nil {
		t.recall(v)
		return v, nil
	}
	if t.tired = t.tired || len(t.known) >= verdictsAtMost; t.tired {
		return nil, nil
	}
	v, err := t.newVerdict(distance, t.base.Program)
	if err != nil || t.stopped {
		return nil, err
	}
	if !v.empty {
		t.carry(v, distance)
		if err := t.carryUnmatched(v); err != nil || t.open() {
			return nil, err
		}
	}
	t.known[distance] = v
	return v, nil
}

// newVerdict is what the sets that were found tell, in a program of the state or of one with fewer
// demands.
func (t *turning) newVerdict(distance int64, like *program.Program) (*verdict, error) {
	v := &verdict{distance: distance, like: like}
	e, err := t.explorer(v)
	if err != nil || t.open() {
		return nil, err
	}
	v.kept, v.others = level{of: v, lo: none, hi: none}, level{of: v, lo: none, hi: none}
	if v.empty = len(e.Unfilled()) > 0; v.empty {
		return v, nil
	}
	v.kept.lo, v.kept.ban = -none, t.keeping(e.Program, true)
	v.others.lo, v.others.ban = -none, t.keeping(e.Program, false)
	v.lines = e.Pairs[t.slot]
	for _, c := range e.Problem.Groups[t.slot].Columns { // the program is not to be held for them
		v.columns = append(v.columns, solver.Column{Name: c.Name, Cost: c.Cost, Loads: slices.Clone(c.Loads)})
	}
	t.recall(v)
	return v, nil
}

// mostInUse is how many programs of one figure are held at a time.
const mostInUse = 3

// explorer is a verdict's program. The one that was used least lately is let go for it.
func (t *turning) explorer(v *verdict) (*program.Explorer, error) {
	t.inUse = append(slices.DeleteFunc(t.inUse, func(o *verdict) bool { return o == v }), v)
	if len(t.inUse) > mostInUse {
		t.inUse[0].e, t.inUse[0].carriers = nil, nil
		t.inUse = t.inUse[1:]
	}
	if v.e != nil {
		return v.e, nil
	}
	e, err := t.base.After(t.program(v.distance, v.like))
	if err == nil && !t.stopped {
		v.e, v.carriers = e, map[*solver.Problem]*solver.Carrier{}
	}
	return e, err
}

// program is one of the state, or of the state without some demands, with the figure at a
// distance from what it is.
func (t *turning) program(distance int64, base *program.Program) *program.Program {
	moved, adjust := t.lever.Moved(base.State, t.value(distance))
	p := base.Again(moved, program.Options{Adjust: adjust, GiveUp: program.Over(t.ctx)}, t.c.Piece)
	t.stopped = t.stopped || p.GaveUp
	return p
}

func (t *turning) value(distance int64) int64 { return t.lever.Now + t.way*distance }

// keeping bans all sets that don't keep to the decision, or all that do. Of those that
// don't, one with the choice in question in a twin of the slot instead of the slot costs as
// much as the one with the two changed about, which does keep to it, or the other way
// round for the runner-up: such sets never turn a decision, and are left out.
func (t *turning) keeping(p *program.Program, kept bool) []solver.Pick {
	with := kept == t.taken
	as := func(c *plan.Choice) bool { return plan.SameChoice(c, t.c) == with }
	ban := p.Only(t.slot, as)
	if !kept {
		for _, twin := range t.twins {
			ban = append(ban, p.Only(twin, as)...)
		}
	}
	return ban
}
