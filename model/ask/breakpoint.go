package ask

import (
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
	"brightset/solver/parallel"
)

// Breakpoint is the last value of one figure of a choice at which the decision
// for the slot stands: of the advised choice, beyond it another one is better; of
// the runner-up, up to it the runner-up is not taken. One unit further it turns: a cent,
// a millionth of a chance, a hundredth of a grade. Up to there it stands at every value.
type Breakpoint struct {
	Choice *plan.Choice
	Figure choice.Figure // as it stands in the files, and moved there: of one piece, before any fitting
	Now    int64
	Last   int64 // in the figure's unit
	Most   int64 // the last value up to which it may stand for all that is known: Last, where that is proven
	Turns  bool  // it is known to turn beyond Most; else Most is the furthest that the files take
	Close  bool  // others cost about the same over a long way: that, and not the time, left it open
	Never  bool  // the decision stands whatever the figure is; Last is the furthest the files take
	Each   bool  // the slot needs several, the figure is for one
	Fitted bool  // the piece is made to fit the slot, which bears on the figure besides
}

// findBreakpoints looks for the switch points of the advised choice and the runner-up,
// of every figure by itself.
func (w *Why) findBreakpoints(ctx context.Context, e *program.Explorer) error {
	asked := e
	if mirrored := twins(e.State, w.Slot); len(mirrored) > 0 { // in which lines are banned as well
		keep := append([]int{w.Slot}, mirrored...)
		var err error
		if e, err = e.After(program.CompileWithin(ctx, e.State, program.Options{FixedLimits: true, Keep: keep})); err != nil {
			return err
		}
		if e.GaveUp {
			w.Stopped = true
			return nil
		}
	}
	var all []turning
	var figures []choice.Figure
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		if i > 1 || !way.Plan.Has {
			break
		}
		t := turning{st: e.State, slot: w.Slot, base: e, c: way.Choice, taken: w.Taken(way),
			ways: w.leasts(), sets: w.sets(asked)}
		for _, f := range t.figures() {
			all, figures = append(all, t), append(figures, f)
		}
	}
	points := make([]Breakpoint, len(all))
	share := newShares(ctx, len(all))
	err := parallel.Do(ctx, len(all), func(i int) (err error) {
		within, done := share.Next(ctx)
		defer done()
		t := all[i] // what it comes to know is let go with it
		t.ctx = within
		points[i], err = t.find(figures[i])
		all[i].stopped = t.stopped
		return err
	})
	for i := range all {
		switch p := points[i]; {
		case p.Choice == nil: // it was not looked for
			w.Stopped = true
		case p.Proven():
			w.Points = append(w.Points, p)
		case all[i].stopped && !p.Turns && p.Last == p.Now: // nothing is known
			w.Stopped = true
		default:
			w.Stopped = w.Stopped || all[i].stopped
			w.Unsettled = append(w.Unsettled, p)
		}
	}
	return err
}

// Proven says whether it is known where the decision turns.
func (p *Breakpoint) Proven() bool { return p.Last == p.Most }

// leasts are what no set is below as the figures are, by choice.
func (w *Why) leasts() (all []way) {
	for i := range w.Alternatives {
		a := &w.Alternatives[i]
		least := int64(w.Advised.Weighed() + a.Least)
		if a.Plan.Status == solver.Infeasible {
			least = none
		}
		all = append(all, way{a.Choice, least})
	}
	return all
}

// sets are those that were found, in the terms of the program that was asked.
func (w *Why) sets(e *program.Explorer) (all []found) {
	for i := range w.Alternatives {
		if p := w.Alternatives[i].Plan; p.Has {
			all = append(all, found{e.Problem, p.Result.Pick, p.Result.On})
		}
	}
	return slices.Clip(all) // each figure adds its own
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
