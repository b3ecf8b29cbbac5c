package paper

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// Held is a piece that goes on no order yet.
type Held struct {
	Piece int
	Slot  int // the position that it is for, the first of several in which it has to be tried
	With  int // the position whose piece it has to match and wait for; catalog.None where it waits for itself
}

// HeldBack are the pieces of a plan that are held back, each once, in the order of the lines:
// those that are to go to a plater although nobody has tried whether they fit where they are
// to hang, since bending a piece after plating cracks the plating; and those that have to match one of them and
// would go to the same plater without it.
func HeldBack(pl *plan.Plan) []Held {
	waits := make([]bool, len(pl.Lines))
	with := make([]int, len(pl.Lines))
	var queue []int
	for i := range pl.Lines {
		with[i] = catalog.None
		if c := pl.Lines[i].Choice; c.InLot() && !pl.PieceOf(c).FittedIn(c.Slot) {
			waits[i] = true
			queue = append(queue, i)
		}
	}
	for ; len(queue) > 0; queue = queue[1:] {
		for _, mate := range mates(pl, queue[0]) {
			if !waits[mate] {
				waits[mate], with[mate] = true, pl.Lines[queue[0]].Slot
				queue = append(queue, mate)
			}
		}
	}
	var all []Held
	for i := range pl.Lines {
		l := &pl.Lines[i]
		if waits[i] && !slices.ContainsFunc(all, func(h Held) bool { return h.Piece == l.Choice.Piece }) {
			all = append(all, Held{Piece: l.Choice.Piece, Slot: l.Slot, With: with[i]})
		}
	}
	return all
}

// mates are the lines whose pieces go to the plater of one line's piece and have to match it,
// in the order of the match groups.
func mates(pl *plan.Plan, line int) []int {
	var all []int
	l := &pl.Lines[line]
	for m := range pl.Of.Matches {
		slots := pl.Of.Matches[m].Slots
		if !slices.Contains(slots, l.Slot) {
			continue
		}
		for i := range pl.Lines {
			c := pl.Lines[i].Choice
			if i != line && c.InLot() && c.Plater == l.Choice.Plater && slices.Contains(slots, pl.Lines[i].Slot) {
				all = append(all, i)
			}
		}
	}
	return all
}

// GoesNow is a lot without the pieces that are held back, priced as a lot of its own; Lines
// is empty where all wait.
func GoesNow(pl *plan.Plan, lot Lot, held []Held) Lot {
	now := lot
	now.Lines, now.Pieces, now.Work, now.Days = nil, 0, 0, 0
	for _, i := range lot.Lines {
		c := pl.Lines[i].Choice
		if !slices.ContainsFunc(held, func(h Held) bool { return h.Piece == c.Piece }) {
			now.take(pl, i)
		}
	}
	if len(now.Lines) < len(lot.Lines) {
		now.Shortfall = max(0, now.Minimum-now.Work)
	}
	now.Total = now.Work + now.Shortfall + now.Freight
	return now
}
