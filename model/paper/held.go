package paper

import (
	"slices"

	"brightset/model/plan"
)

// Unfitted says whether a choice is to go to a plater although nobody has tried whether the
// piece fits: bending it after plating cracks the plating, so it is held back from his order
// unless there is a reason to send it.
func Unfitted(pl *plan.Plan, c *plan.Choice) bool { return c.InLot() && !pl.PieceOf(c).Fitted }

// HeldBack are the pieces of a plan that are held back for that, each once, in the order of
// the lines.
func HeldBack(pl *plan.Plan) []int {
	var all []int
	for i := range pl.Lines {
		if c := pl.Lines[i].Choice; Unfitted(pl, c) && !slices.Contains(all, c.Piece) {
			all = append(all, c.Piece)
		}
	}
	return all
}
