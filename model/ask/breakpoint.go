package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
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

// findBreakpoints looks for the switch points of the advised choice and the runner-up.
func (w *Why) findBreakpoints(ctx context.Context, st *catalog.State, set solver.Settings) error {
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
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
			if t.tired {
				w.Unsettled = append(w.Unsettled, p)
			} else {
				w.Points = append(w.Points, p)
			}
		}
	}
	return nil
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
