package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
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
	Never  bool  // the decision stands whatever the figure is; Last is the furthest the files take
	Each   bool  // the slot needs several, the figure is for one
	Fitted bool  // the piece is made to fit the slot, which bears on the figure besides
}

// findBreakpoints looks for the switch points of the advised choice and the runner-up,
// of every figure by itself.
func (w *Why) findBreakpoints(ctx context.Context, e *program.Explorer) error {
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
	var all []*turning
	var figures []choice.Figure
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		if i > 1 || !way.Plan.Has {
			break
		}
		t := turning{ctx: ctx, st: e.State, slot: w.Slot, set: e.Set, base: e, c: way.Choice, taken: w.Taken(way)}
		for _, f := range t.figures() {
			own := t
			all, figures = append(all, &own), append(figures, f)
		}
	}
	points, done := make([]Breakpoint, len(all)), make([]bool, len(all))
	err := parallel.Do(ctx, len(all), func(i int) (err error) {
		points[i], err = all[i].find(figures[i])
		done[i] = !all[i].stopped
		return err
	})
	for i, t := range all {
		switch {
		case !done[i]:
			w.Stopped = true
		case t.tired:
			w.Unsettled = append(w.Unsettled, points[i])
		default:
			w.Points = append(w.Points, points[i])
		}
	}
	return err
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
