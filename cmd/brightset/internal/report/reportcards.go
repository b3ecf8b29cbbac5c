package report

import (
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
			Cards:   []*page.Card{w.slotCard(l.Choice, "hangs", 0, "")},
		}
		if l.Fallback != nil {
			b.Cards = append(b.Cards, w.slotCard(l.Fallback, "in reserve", 0, ""))
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
func (w *Whole) slotCard(c *plan.Choice, mark string, more catalog.Cents, why string) *page.Card {
	st := w.Plan.Of
	card := w.pieceCard(c.Piece, mark)
	set := "as advised"
	if more != 0 {
		set = moreOrLess(more)
	}
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

func (w *Whole) rejectedCard(r *ask.RejectedPiece) *page.Card {
	switch {
	case r.Choice != nil && r.More == 0 && r.Keeps == 0:
		return w.slotCard(r.Choice, "as good", 0, "")
	case r.Choice != nil:
		mark := "dearer"
		if r.More <= 0 {
			mark = "not the object's own"
		}
		return w.slotCard(r.Choice, mark, r.More, keepsMore(r.Keeps))
	}
	why := r.Why
	if r.Both {
		why = "no set with it meets all that is asked for"
	}
	card := w.pieceCard(r.Piece, "out")
	card.Facts = append(card.Facts, page.Fact{What: "Why not", Is: why})
	return card
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
