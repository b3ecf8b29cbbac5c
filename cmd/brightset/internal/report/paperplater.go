package report

import (
	"fmt"
	"html/template"
	"slices"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/paper"
	"brightset/model/plan"
)

// platerOrder is the work order for one plater; nil where all his pieces are held back.
// It names no owner, and no price unless that was asked for.
func (p *Papers) platerOrder(lot *paper.Lot) *page.Page {
	st := p.Plan.Of
	q := &st.Platers[lot.Plater]
	sheet := p.sheet(fileName("plater", q.ID), "Work order", "for "+named(q.Name, q.ID))
	sheet.Blocks = append(sheet.Blocks, page.Block{List: []string{
		"Do nothing to a piece that is not on this order without asking.",
		"No filler, solder or build-up without our consent. Mask what is marked; spare lettering, thin edges, holes and threads.",
		"Strip and look first. If a piece costs more than the sum beside it, stop and call.",
		"Send back everything: pieces you can't do, fragments, loose hardware, and the tags.",
	}})
	count := page.NewGrid("tag", "piece", ">pieces", "hardware with it", "=out", "=in")
	count.Caption = "Counted out and in; both sign"
	for _, i := range lot.Lines {
		l := &p.Plan.Lines[i]
		if p.holds(l.Choice) {
			continue
		}
		piece := &st.Pieces[l.Choice.Piece]
		count.Row(tagOf(piece), plan.PieceName(st, l.Choice.Piece), fmt.Sprint(st.Slots[l.Slot].Quantity), orNone(join(piece.Hardware)), "☐", "☐")
	}
	if len(count.Rows) == 0 {
		return nil
	}
	sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "What is sent", Grid: count, Signs: []string{"out: our shop, date", "out: plater, date", "in: plater, date", "in: our shop, date"}})
	heading := "The pieces"
	for _, i := range lot.Lines {
		if l := &p.Plan.Lines[i]; !p.holds(l.Choice) {
			sheet.Blocks = append(sheet.Blocks, page.Block{Heading: heading, Card: p.orderCard(l)})
			heading = ""
		}
	}
	if p.Unfitted != "" {
		sheet.Blocks = append(sheet.Blocks, page.Block{Small: []string{"Sent without a test fit where no fit is noted: " + p.Unfitted}})
	}
	if p.Prices {
		sheet.Blocks = append(sheet.Blocks, p.lotPrices(lot))
	}
	sheet.Blocks = append(sheet.Blocks, page.Block{Care: platerCare})
	return sheet
}

// orderCard is one piece on a work order.
func (p *Papers) orderCard(l *plan.Line) *page.Card {
	st, c := p.Plan.Of, l.Choice
	piece, slot := &st.Pieces[c.Piece], &st.Slots[l.Slot]
	card := &page.Card{Title: fmt.Sprintf("%s, tag %s", slot.Name, tagOf(piece))}
	card.Facts = []page.Fact{
		{What: "Piece", Is: named(piece.Name, plan.PieceName(st, c.Piece))},
		{What: "Metal", Is: metalText(st, piece)},
		{What: "Marks scribed on it", Is: orNone(piece.Marks)},
		{What: "Finish reached for", Is: gradeText(st, c.Grade)},
		{What: "Acceptable from", Is: acceptable(st, slot)},
	}
	if slot.Quantity > 1 {
		card.Facts = append(card.Facts, page.Fact{What: "Pieces", Is: fmt.Sprint(slot.Quantity)})
	}
	if slot.Area.Set {
		card.Facts = append(card.Facts, page.Fact{What: "Surface of one", Is: catalog.FormatArea(slot.Area.V)})
	}
	if text := p.stopText(l.Slot); text != "" {
		card.Facts = append(card.Facts, page.Fact{What: "Price after strip", Is: text})
	}
	if text := mateText(st, l.Slot); text != "" {
		card.Facts = append(card.Facts, page.Fact{What: "Has to match", Is: text})
	}
	card.Photo, card.PhotoOf = p.photoOf(piece)
	add := func(what string, items ...string) {
		if len(items) > 0 {
			card.Lists = append(card.Lists, page.Titled{What: what, Items: items})
		}
	}
	add("Found on it", findingTexts(st, piece)...)
	add("Work, in this order", worksText(st, c, "you")...)
	if piece.Protect != "" {
		add("Mask and spare", piece.Protect)
	}
	add("Hardware that goes with it", piece.Hardware...)
	if p.Spec {
		if lines, ok := paper.SpecLines(st, c); ok {
			add("Specification, by open standards", lines...)
		}
	}
	return card
}

// photoOf is a small copy of the first photo of a piece that can be read.
func (p *Papers) photoOf(piece *catalog.Piece) (url template.URL, of string) {
	if p.Photo == nil {
		return "", ""
	}
	for _, name := range piece.Photos {
		if u := p.Photo(name); u != "" {
			return u, "photo of " + piece.Name
		}
	}
	return "", ""
}

// stopText is the price above which the plater has to call.
func (p *Papers) stopText(slot int) string {
	if !p.StopsWhole && !p.knowsStop(slot) && ask.PriceOpen(p.Plan.Of, p.Plan.Lines[slot].Choice) {
		return "call with the price before you go on" // there was no time to work out from where
	}
	for i := range p.Stops {
		s := &p.Stops[i]
		if s.Slot != slot {
			continue
		}
		if s.NoOther && !s.ByBudget {
			return "call with the price before you go on"
		}
		return fmt.Sprintf("call before you go on above %s %s", catalog.FormatMoney(s.Highest), p.Plan.Of.Job.Currency)
	}
	return ""
}

func (p *Papers) knowsStop(slot int) bool {
	return slices.ContainsFunc(p.Stops, func(s ask.StopPrice) bool { return s.Slot == slot })
}

// acceptable is the least that will be taken back without a word.
func acceptable(st *catalog.State, slot *catalog.Slot) string {
	if !slot.Target.Floor.Set {
		return "as agreed"
	}
	return gradeText(st, slot.Target.Floor.V)
}

// mateText names the slots whose pieces are seen together with one.
func mateText(st *catalog.State, slot int) string {
	var all []string
	for i := range st.Matches {
		m := &st.Matches[i]
		in := false
		for _, s := range m.Slots {
			in = in || s == slot
		}
		for _, s := range m.Slots {
			if in && s != slot {
				all = append(all, st.Slots[s].Name)
			}
		}
	}
	return join(unique(all))
}

func (p *Papers) lotPrices(lot *paper.Lot) page.Block {
	st := p.Plan.Of
	g := page.NewGrid("piece", "price", ">"+st.Job.Currency)
	for _, i := range lot.Lines {
		l := &p.Plan.Lines[i]
		if p.holds(l.Choice) {
			continue
		}
		how := "our estimate" // only what he has named himself is agreed
		if l.Choice.Quote != catalog.None {
			how = "agreed"
		}
		g.Row(plan.PieceName(st, l.Choice.Piece), how, catalog.FormatMoney(l.Choice.Plate))
	}
	if lot.Freight > 0 {
		g.Row("freight", "", catalog.FormatMoney(lot.Freight))
	}
	if lot.Minimum > 0 {
		g.Row("least charge for the lot", "", catalog.FormatMoney(lot.Minimum))
	}
	return page.Block{Heading: "Prices", Grid: g}
}
