package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/solver"
)

// Keeping the object's own pieces is weighed against money and is none: it stands apart
// from every sum.

// keepsAny says whether keeping an own piece is worth anything to the owner in some slot.
func keepsAny(st *catalog.State) bool {
	for s := range st.Slots {
		if st.Slots[s].Keep > 0 {
			return true
		}
	}
	return false
}

// own is how many slots of a plan one of the object's own pieces is planned for.
func own(p *plan.Plan) (n int) {
	for i := range p.Lines {
		if p.Of.Pieces[p.Lines[i].Choice.Piece].Off {
			n++
		}
	}
	return n
}

// keptRow says what a plan keeps, "" where that is not asked about.
func keptRow(p *plan.Plan) string {
	if !keepsAny(p.Of) {
		return ""
	}
	return fmt.Sprintf("%d of %d hang a piece that came off the object, worth %s to the owner by the chance that it "+
		"does: weighed in the choice, but no money, and in no sum", own(p), len(p.Lines), catalog.FormatMoney(p.Keeps))
}

// keepsMore says what is kept more or less, apart from money; "" for nothing.
func keepsMore(v catalog.Cents) string {
	switch {
	case v < 0:
		return "keeps " + catalog.FormatMoney(-v) + " less of the object's own (no money)"
	case v > 0:
		return "keeps " + catalog.FormatMoney(v) + " more of the object's own (no money)"
	}
	return ""
}

// keeping is what it costs to hang the object's own piece in a slot.
type keeping struct {
	own   *ask.Alternative
	costs catalog.Cents // the set with it, more than the cheapest without one there; may be below zero
	worth catalog.Cents // what it keeps more
}

// keepingIn compares the best way with an own piece with the best without; nil where there
// are not both, or where it is worth nothing.
func keepingIn(w *ask.Why) *keeping {
	if w.Advised.Of.Slots[w.Slot].Keep == 0 {
		return nil
	}
	var best [2]*ask.Alternative // without, with: the first of either is the best
	for i := range w.Alternatives {
		way, off := &w.Alternatives[i], 0
		if w.Advised.Of.Pieces[way.Choice.Piece].Off {
			off = 1
		}
		if way.Plan.Has && best[off] == nil {
			best[off] = way
		}
	}
	if best[0] == nil || best[1] == nil {
		return nil
	}
	return &keeping{best[1], best[1].More - best[0].More, best[1].Keeps - best[0].Keeps}
}

// keepingCosts says in words what keeping costs, "" where there is nothing to say.
func keepingCosts(w *ask.Why) string {
	k := keepingIn(w)
	if k == nil {
		return ""
	}
	return Paragraph("", "  ", fmt.Sprintf("Keeping the object's own piece, %s: the set costs %s than without one here, "+
		"and that is weighed against what keeping is worth to the owner, here %s. That is no money, and in none of the sums.",
		plan.Told(w.Advised.Of, k.own.Choice), moreOrLess(k.costs), catalog.FormatMoney(k.worth)))
}

// keptWeighed is the sentence under answers whose sums are shown without what is kept;
// "" where nothing is.
func keptWeighed(st *catalog.State, text string) string {
	if !keepsAny(st) {
		return ""
	}
	return text
}

// frontierKept says why a point may cost less than the one before.
const frontierKept = "What keeping the object's own pieces is worth to the owner is weighed in every point, but is " +
	"in no sum: a higher mean may even cost less where it keeps less."

// huntKept says what keeping does to a top price.
const huntKept = "What keeping the object's own piece is worth to the owner is weighed in: where one hangs, a find " +
	"has to save that as well before anything is paid for it."

// keptVerdict says what is known of a plan's being the best where keeping is weighed.
func keptVerdict(p *plan.Plan) string {
	if p.Status == solver.Optimal {
		return Paragraph("", "", "The best on these figures, cost and keeping weighed: proven, nothing that meets "+
			"the target and keeps as much of the object's own costs less.")
	}
	if p.Stop == solver.CloseEnough {
		return Paragraph("", "", "Cost and keeping are weighed. "+closeEnough(p.Expected-p.Bound))
	}
	return Paragraph("", "", fmt.Sprintf("Not proven to be the best: stopped early (%s). Nothing that meets the target "+
		"and keeps as much of the object's own costs less than %s; this plan is at most %s above that.", p.Stop,
		catalog.FormatMoney(p.Bound), catalog.FormatMoney(p.Expected-p.Bound)))
}
