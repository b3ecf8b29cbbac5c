package report

import (
	"cmp"
	"fmt"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
)

// slots sets the pieces for every slot side by side: the one that hangs first.
func (w *Whole) slots() []page.Block {
	st := w.Plan.Of
	var all []page.Block
	for i := range w.Plan.Lines {
		l := &w.Plan.Lines[i]
		b := page.Block{
			Heading: st.Slots[l.Slot].Name,
			ID:      fmt.Sprintf("slot-%d", l.Slot+1),
			Cards:   []*page.Card{w.slotCard(l.Choice, "hangs", asAdvised, "")},
		}
		if l.Fallback != nil {
			b.Cards = append(b.Cards, w.slotCard(l.Fallback, "in reserve", asAdvised, ""))
		}
		for k := range w.Rejected {
			if r := &w.Rejected[k]; r.Slot == l.Slot {
				b.Cards = append(b.Cards, w.rejectedCard(r))
			}
		}
		all = append(all, b)
	}
	return all
}

// slotCard has the same rows in the same order for every piece.
func (w *Whole) slotCard(c *plan.Choice, mark, set, why string) *page.Card {
	st := w.Plan.Of
	card := w.pieceCard(c.Piece, mark)
	card.Facts = append(card.Facts,
		page.Fact{What: "What is done", Is: work(st, c)},
		page.Fact{What: "Costs", Is: catalog.FormatMoney(c.Cash)},
		page.Fact{What: "Breaks", Is: Percent(c.Breakage)},
		page.Fact{What: "Grade reached", Is: gradeText(st, c.Grade)},
		page.Fact{What: "The whole set", Is: set})
	if why != "" {
		card.Facts = append(card.Facts, page.Fact{What: "But", Is: why})
	}
	return card
}

// asAdvised is what the whole set comes to with a piece that has a part in it.
const asAdvised = "as advised"

func (w *Whole) rejectedCard(r *ask.RejectedPiece) *page.Card {
	mark, set, why := rejection(w.Plan, r)
	if r.Choice != nil {
		return w.slotCard(r.Choice, mark, cmp.Or(set, asAdvised), why)
	}
	card := w.pieceCard(r.Piece, mark)
	if set != "" {
		card.Facts = append(card.Facts, page.Fact{What: "The whole set", Is: set})
	}
	if why != "" {
		card.Facts = append(card.Facts, page.Fact{What: "Why not", Is: why})
	}
	return card
}

// rejection says what keeps a piece out of the set: what sort of reason that is, what the whole
// set comes to with it ("" where none has it, or it is the same), and what else there is to say.
func rejection(p *plan.Plan, r *ask.RejectedPiece) (mark, set, why string) {
	switch {
	case r.Open && r.Choice == nil:
		return "dearer", leastMore(p, r.Least) + "; no set with it found in time", ""
	case r.Choice == nil && r.Both:
		return "out", "", "no set with it meets all that is asked for"
	case r.Choice == nil:
		return "out", "", r.Why
	case r.More == 0 && r.Keeps == 0:
		return "as good", "", ""
	case r.More <= 0:
		mark = "not the object's own"
	default:
		mark = "dearer"
	}
	if r.More != 0 {
		set = moreOrLess(r.More)
	}
	if r.Open {
		set = moreOrLess(r.More) + "; not proven, " + leastMore(p, r.Least)
	}
	return mark, set, keepsMore(r.Keeps)
}

func (w *Whole) pieceCard(i int, mark string) *page.Card {
	st := w.Plan.Of
	piece := &st.Pieces[i]
	card := &page.Card{Title: plan.PieceCalled(st, i), Mark: mark}
	card.Photo, card.PhotoOf = w.photoOf(piece)
	asIs := "not graded"
	if g, ok := choice.AsIsGrade(st, i); ok {
		asIs = gradeText(st, g)
	}
	card.Facts = []page.Fact{
		{What: "Tag", Is: tagOf(piece)},
		{What: "Whose, kind", Is: source(st, piece) + ", " + string(piece.Kind)},
		{What: "Found on it", Is: orNone(join(findingTexts(st, piece)))},
		{What: "As it lies", Is: asIs},
	}
	return card
}
