package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// SwitchPoint is the last value of one figure of a choice at which the decision
// for the slot stands: of the advised choice, beyond it another one is better; of
// the runner-up, up to it the runner-up is not taken. One unit further it turns: a cent,
// a millionth of a chance, a hundredth of a grade.
type SwitchPoint struct {
	Choice *plan.Choice
	Figure choice.Figure // as it stands in the files, and moved there: of one piece, before any fitting
	Now    int64
	Last   int64 // in the figure's unit
	Never  bool  // the decision stands whatever the figure is; Last is the furthest the files take
	Each   bool  // the slot needs several, the figure is for one
	Fitted bool  // the piece is made to fit the slot, which bears on the figure besides
}

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
	c       *plan.Choice
	taken   bool // it is the advised choice; else the runner-up
	stopped bool
	lever   choice.Lever // the figure that is moved
}

// figures are those of the choice that mean something for it.
func (t *turning) figures() []choice.Figure {
	var all []choice.Figure
	if t.c.Plate > 0 {
		all = append(all, choice.FigurePlating)
	}
	if t.c.Get > 0 {
		all = append(all, choice.FigurePrice)
	}
	if t.c.Work != catalog.WorkAsIs && !(t.c.Sent && t.st.Pieces[t.c.Piece].Stage >= catalog.StagePlated) {
		all = append(all, choice.FigureBreakage)
	}
	return append(all, choice.FigureGrade)
}

// stride is how much longer each step away from the value there is is than the one
// before.
const stride = 5

// find strides away from the value there is, in growing steps, until the decision
// has turned, and then halves the last stride until two values are left that follow each
// other. Where a figure works both ways, as a grade does in a match, it finds a turn
// within the first stride that it sees turned.
func (t *turning) find(f choice.Figure) (SwitchPoint, error) {
	t.lever = choice.LeverOf(t.st, t.c, f)
	now := t.lever.Now
	furthest := t.lever.Furthest(t.st, t.taken != (f == choice.FigureGrade))
	p := SwitchPoint{Choice: t.c, Figure: f, Now: now, Each: choice.Needed(&t.st.Slots[t.slot]) > 1,
		Fitted: choice.Fitting(&t.st.Pieces[t.c.Piece], t.slot) != nil && (f == choice.FigureBreakage || f == choice.FigureGrade)}
	steps, way := furthest-now, int64(1)
	if furthest < now {
		steps, way = now-furthest, -1
	}
	stands, turns := int64(0), steps+1
	look := func(probe int64) error {
		ok, err := t.stands(now + way*probe)
		if ok {
			stands = probe
		} else {
			turns = probe
		}
		return err
	}
	for stands < steps && turns > steps {
		if err := look(min(max(1, stride*stands), steps)); err != nil || t.stopped {
			return p, err
		}
	}
	for turns <= steps && turns-stands > 1 {
		if err := look((stands + turns) / 2); err != nil || t.stopped {
			return p, err
		}
	}
	p.Last, p.Never = now+way*stands, turns > steps
	return p, nil
}

func (t *turning) own(c *plan.Choice) bool { return plan.SameChoice(c, t.c) }

func (t *turning) others(c *plan.Choice) bool { return !plan.SameChoice(c, t.c) }

// solve gives the cheapest set with some lines banned, below a total if there is one.
func (t *turning) solve(p *program.Program, ban []solver.Pick, below *int64) (solver.Result, error) {
	res, err := program.SolveOnce(t.ctx, p.Problem, solver.Change{Ban: ban, Below: below}, t.set)
	t.stopped = t.stopped || res.Status == solver.Stopped
	return res, err
}

// stands says whether the decision is the same with the figure at another value: of
// the advised choice, that no set without it is cheaper; of the runner-up, that
// none with it is.
func (t *turning) stands(v int64) (bool, error) {
	st, adjust := t.lever.Moved(t.st, v)
	p := program.CompileWithin(t.ctx, st, program.Options{FixedLimits: true, Keep: []int{t.slot}, Adjust: adjust})
	if p.GaveUp {
		t.stopped = true
		return false, nil
	}
	if len(p.Unfilled()) > 0 {
		return !t.taken, nil
	}
	with, err := t.solve(p, p.Only(t.slot, t.own), nil)
	if err != nil || t.stopped || !with.Has {
		return !t.taken, err
	}
	below := with.Total
	if !t.taken {
		below++ // it is taken only if it is cheaper than all others
	}
	without, err := t.solve(p, p.Only(t.slot, t.others), &below)
	return without.Has != t.taken, err
}
