package report

import (
	"fmt"
	"html/template"
	"slices"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/paper"
	"brightset/model/plan"
)

// photoCards are the photos large enough to work from, on pages of their own.
func (t together) photoCards(lot *paper.CommonLot) []page.Block {
	var cards []*page.Card
	for _, part := range lot.Parts {
		p := t[part.Job]
		for _, i := range part.Lines {
			l := &p.Plan.Lines[i]
			piece := p.Plan.PieceOf(l.Choice)
			photo, of := p.photoOf(piece)
			if photo == "" {
				continue
			}
			card := &page.Card{Title: fmt.Sprintf("%s, tag %s", p.Plan.SlotOf(l).Name, t.marked(part.Job, tagOf(piece))),
				Photo: photo, PhotoOf: of}
			card.Lists = []page.Titled{{What: "Found on it", Items: findingTexts(p.Plan.Of, piece)}}
			cards = append(cards, card)
		}
	}
	if len(cards) == 0 {
		return nil
	}
	return []page.Block{{Heading: "The pieces as they are sent", New: true, Cards: cards}}
}

// photoOf is a small copy of the first photo of a piece that can be read.
func (p *Papers) photoOf(piece *catalog.Piece) (url template.URL, of string) {
	if p.Photo == nil {
		return "", ""
	}
	for _, name := range piece.Photos {
		if u := p.Photo(piece, name); u != "" {
			return u, "photo of " + piece.Name
		}
	}
	return "", ""
}

// matesOf names the slots whose pieces are seen together with one, each once.
func matesOf(pl *plan.Plan, slot int) []string {
	var all []string
	for i := range pl.Of.Matches {
		if m := &pl.Of.Matches[i]; slices.Contains(m.Slots, slot) {
			for _, s := range m.Slots {
				if s != slot {
					all = append(all, pl.Of.Slots[s].Name)
				}
			}
		}
	}
	return unique(all)
}
