package model

import (
	"context"

	"brightset/catalog"
	"brightset/solver"
)

// Figure is what a decision may turn on.
type Figure string

const (
	FigurePlating  Figure = "plating"  // the plater's part of the price, cents, for all the slot needs
	FigurePrice    Figure = "price"    // what the pieces cost to have, cents, for all the slot needs
	FigureBreakage Figure = "breakage" // the chance of breaking, millionths
	FigureGrade    Figure = "grade"    // as it will hang, hundredths
)

// SwitchPoint is the last value of one figure of a choice at which the decision
// for the slot stands: of the advised choice, beyond it another one is better; of
// the runner-up, up to it the runner-up is not taken.
type SwitchPoint struct {
	Choice *Choice
	Figure Figure
	Now    int64
	Last   int64 // in the figure's unit
	Step   int64 // how finely it was looked for
	Never  bool  // the decision stands whatever the figure is; Last is the furthest looked at
}

// The steps of the search, and how far it goes.
const (
	stepMoney    = 100                   // 1.00
	stepBreakage = 5_000                 // half a percent
	stepGrade    = 100                   // a point
	mostMoney    = 50                    // times the figure as it is, and mostOver more
	mostOver     = catalog.Cents(100_00) //
)

// findPoints looks for the switch points of the advised choice and the runner-up.
func (w *Why) findPoints(ctx context.Context, st *catalog.State, set solver.Settings) error {
	for i := range w.Ways {
		way := &w.Ways[i]
		if i > 1 || !way.Plan.Has {
			break
		}
		t := turning{ctx: ctx, st: st, slot: w.Slot, set: set, c: way.Choice, taken: w.Taken(way)}
		for _, f := range t.figures() {
			p, err := t.find(f)
			if err != nil {
				return err
			}
			if t.stopped {
				w.Stopped = true
				return nil
			}
			w.Points = append(w.Points, p)
		}
	}
	return nil
}

// turning looks for the value of a figure of one choice at which the decision
// turns.
type turning struct {
	ctx     context.Context
	st      *catalog.State
	slot    int
	set     solver.Settings
	c       *Choice
	taken   bool // it is the advised choice; else the runner-up
	stopped bool
}

// figures are those of the choice that mean something for it.
func (t *turning) figures() []Figure {
	var all []Figure
	if t.c.Plate > 0 {
		all = append(all, FigurePlating)
	}
	if t.c.Get > 0 {
		all = append(all, FigurePrice)
	}
	if t.c.Work != catalog.WorkAsIs {
		all = append(all, FigureBreakage)
	}
	return append(all, FigureGrade)
}

// axis gives the value a figure has, the furthest it is looked at in the direction
// that turns the decision, and the step.
func (t *turning) axis(f Figure) (now, furthest, step int64) {
	money := func(v catalog.Cents) (int64, int64, int64) {
		if t.taken {
			return int64(v), int64(mostMoney*v + mostOver), stepMoney
		}
		return int64(v), 0, stepMoney
	}
	switch f {
	case FigurePlating:
		return money(t.c.Plate)
	case FigurePrice:
		return money(t.c.Get)
	case FigureBreakage:
		if t.taken {
			return int64(t.c.Breakage), int64(catalog.One), stepBreakage
		}
		return int64(t.c.Breakage), 0, stepBreakage
	}
	if t.taken {
		return int64(t.c.Grade), 0, stepGrade
	}
	return int64(t.c.Grade), 10_000, stepGrade
}

// put sets a figure of a choice.
func put(c *Choice, f Figure, v int64) {
	switch f {
	case FigurePlating:
		c.Plate = catalog.Cents(v)
	case FigurePrice:
		c.Get = catalog.Cents(v)
	case FigureBreakage:
		c.Breakage = catalog.Micro(v)
	case FigureGrade:
		c.Grade = catalog.Centi(v)
	}
}

// find strides away from the value there is, in growing steps, until the decision
// has turned, and then halves the last stride. Where a figure works both ways, as
// a grade does in a match, it finds the nearest of the turns it has strode over.
func (t *turning) find(f Figure) (SwitchPoint, error) {
	now, furthest, step := t.axis(f)
	p := SwitchPoint{Choice: t.c, Figure: f, Now: now, Step: step}
	steps, way := (furthest-now)/step, int64(1)
	if furthest < now {
		steps, way = (now-furthest)/step, -1
	}
	at := func(n int64) int64 { return now + way*step*n }
	stands, turns := int64(0), steps+1
	for stands < steps && turns > steps {
		probe := min(max(1, 4*stands), steps)
		ok, err := t.stands(f, at(probe))
		if err != nil || t.stopped {
			return p, err
		}
		if ok {
			stands = probe
		} else {
			turns = probe
		}
	}
	for turns <= steps && turns-stands > 1 {
		middle := (stands + turns) / 2
		ok, err := t.stands(f, at(middle))
		if err != nil || t.stopped {
			return p, err
		}
		if ok {
			stands = middle
		} else {
			turns = middle
		}
	}
	p.Last, p.Never = at(stands), turns > steps
	return p, nil
}

// stands says whether the decision is the same with another value of a figure: of
// the advised choice, that no set without it is cheaper; of the runner-up, that
// none with it is.
func (t *turning) stands(f Figure, v int64) (bool, error) {
	adjust := func(c *Choice) {
		if c.Slot == t.slot && sameChoice(c, t.c) {
			put(c, f, v)
		}
	}
	p := compile(t.ctx, t.st, Options{FixedLimits: true, Keep: []int{t.slot}, Adjust: adjust})
	if p.gaveUp {
		t.stopped = true
		return false, nil
	}
	if len(p.Unfilled()) > 0 {
		return !t.taken, nil
	}
	s, err := solver.New(p.Problem)
	if err != nil {
		return false, err
	}
	own := func(c *Choice) bool { return sameChoice(c, t.c) }
	with, err := s.Solve(t.ctx, solver.Change{Ban: p.Only(t.slot, own)}, t.set)
	if err != nil || with.Status == solver.Stopped {
		t.stopped = with.Status == solver.Stopped
		return false, err
	}
	if !with.Has {
		return !t.taken, nil
	}
	bar := with.Total
	if !t.taken {
		bar++ // the runner-up is taken only if it is cheaper than all others
	}
	without, err := s.Solve(t.ctx, solver.Change{Ban: p.Only(t.slot, func(c *Choice) bool { return !own(c) }), Below: &bar}, t.set)
	if err != nil || without.Status == solver.Stopped {
		t.stopped = without.Status == solver.Stopped
		return false, err
	}
	return without.Has != t.taken, nil
}
