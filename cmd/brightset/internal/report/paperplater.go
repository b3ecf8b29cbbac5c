package report

import (
	"fmt"
	"strings"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/paper"
	"brightset/model/plan"
)

// platerOrder is the work order for one plater: a row per piece, on one sheet where it fits.
// It names no owner, and not what we would pay at most.
func (t together) platerOrder(lot *paper.CommonLot) *page.Page {
	first := t[lot.Parts[0].Job]
	q := &first.Plan.Of.Platers[lot.Parts[0].Plater]
	sheet := first.sheet(fileName("plater", q.ID), "Work order", "for "+q.Name)
	sheet.From, sheet.Dense = first.ourShop(), true
	due := []string{first.due(&lot.Whole)}
	if len(t) > 1 {
		due = append(due, "Tags carry the number of the job: pieces of two jobs may be called the same.")
	}
	sheet.Blocks = []page.Block{
		{Text: due},
		{Grid: t.orderGrid(lot)},
		{List: orderTerms, Signs: []string{"out: our shop, date", "out: plater, date", "in: plater, date",
			"in: our shop, date"}},
		{Care: platerCare},
	}
	if first.Unfitted != "" {
		sheet.Blocks = append(sheet.Blocks, page.Block{Small: []string{"Sent without a test fit where no fit is noted: " +
			first.Unfitted}})
	}
	sheet.Blocks = append(sheet.Blocks, t.photoCards(lot)...)
	return sheet
}

// ourShop says who sends the order and whom to call.
func (p *Papers) ourShop() []string {
	s := &p.Plan.Of.Shop
	var all []string
	for _, text := range []string{s.Name, s.Address} {
		if text != "" {
			all = append(all, text)
		}
	}
	switch {
	case s.Phone != "" && s.Contact != "":
		all = append(all, fmt.Sprintf("Call %s, %s", s.Contact, s.Phone))
	case s.Phone+s.Contact != "":
		all = append(all, "Call "+s.Phone+s.Contact)
	}
	return all
}

// due is when the lot is to be back.
func (p *Papers) due(lot *paper.Lot) string {
	sent, err := time.Parse(time.DateOnly, p.Date)
	if lot.Days == 0 || err != nil {
		return fmt.Sprintf("%s. Back by the date agreed.", count(lot.Pieces, "piece"))
	}
	return fmt.Sprintf("%s. Back by %s, %s from today; call if it will be later.", count(lot.Pieces, "piece"),
		sent.AddDate(0, 0, lot.Days).Format(time.DateOnly), count(lot.Days, "day"))
}

// orderGrid has a row per piece: which it is, what is wrong with it, what to do, and what for.
func (t together) orderGrid(lot *paper.CommonLot) *page.Grid {
	g := page.NewGrid("=tag", "piece, and what is with it", "what to do, in this order", ">"+t[0].Plan.Of.Job.Currency,
		"=out", "=in")
	g.Caption = "Counted out and in; both sign below"
	bag := 0
	for _, part := range lot.Parts {
		p := t[part.Job]
		for _, i := range part.Lines {
			l := &p.Plan.Lines[i]
			if p.Plan.SlotOf(l).Quantity > 1 {
				bag++
			}
			piece := p.Plan.PieceOf(l.Choice)
			g.Row(t.tag(part.Job, piece), p.pieceCell(l, bag), p.workCell(l), p.priceCell(l), "☐", "☐")
			photo, of := p.photoOf(piece)
			g.Photos = append(g.Photos, page.Photo{URL: photo, Of: of})
		}
	}
	sumUp(g, &lot.Whole)
	return g
}

// pieceCell says which piece it is and what comes with it; bag is the number of its bag.
func (p *Papers) pieceCell(l *plan.Line, bag int) string {
	st, piece, slot := p.Plan.Of, p.Plan.PieceOf(l.Choice), p.Plan.SlotOf(l)
	lines := []string{slot.Name}
	if piece.Name != piece.ID && piece.Name != slot.Name {
		lines = append(lines, piece.Name)
	}
	if slot.Quantity > 1 {
		lines = append(lines, fmt.Sprintf("%d pieces, counted, in bag %d", slot.Quantity, bag))
	}
	what := metalText(st, piece)
	if slot.Area.Set {
		what += ", " + slot.AreaWritten
		if slot.Quantity > 1 {
			what += " each"
		}
	}
	lines = append(lines, what)
	if piece.Marks != "" {
		lines = append(lines, "marked: "+piece.Marks)
	}
	if len(piece.Hardware) > 0 {
		lines = append(lines, "with it: "+join(piece.Hardware))
	}
	if mates := matesOf(p.Plan, l.Slot); len(mates) > 0 {
		lines = append(lines, "has to match: "+join(mates))
	}
	return strings.Join(lines, "\n")
}

// workCell lists the work as it is done, from what was found on the piece.
func (p *Papers) workCell(l *plan.Line) string {
	st, c := p.Plan.Of, l.Choice
	var lines, before []string
	if found := findingTexts(st, p.Plan.PieceOf(c)); len(found) > 0 {
		lines = append(lines, "Found: "+strings.Join(found, "; "))
	}
	steps := []string{"strip and look"}
	for _, part := range c.Parts {
		switch {
		case part.Doer == plan.ByPlater && part.Work == catalog.None:
		case part.Doer == plan.ByPlater:
			steps = append(steps, st.Tables.Works[part.Work].Name)
		case part.Work != catalog.None && !st.Tables.Works[part.Work].AfterPlating():
			before = append(before, st.Tables.Works[part.Work].Name)
		}
	}
	steps = append(steps, "polish and plate: "+p.finishText(c))
	if len(before) > 0 {
		lines = append(lines, "Done before it comes to you: "+join(before))
	}
	for i, step := range steps {
		lines = append(lines, fmt.Sprintf("%d. %s", i+1, step))
	}
	if protect := p.Plan.PieceOf(c).Protect; protect != "" {
		lines = append(lines, "Mask and spare: "+protect)
	}
	return strings.Join(lines, "\n")
}

// finishText is the finish that is ordered, in the plater's word and ours.
func (p *Papers) finishText(c *plan.Choice) string {
	var all []string
	if c.Level != "" {
		all = append(all, fmt.Sprintf("your %q", c.Level))
	}
	if w := gradeWord(p.Plan.Of, c.Grade); w != "" && w != c.Level {
		all = append(all, "a "+w+" finish")
	}
	if len(all) == 0 {
		return "as agreed"
	}
	return join(all)
}

// standings says how far a price binds him.
var standings = map[paper.Standing]string{
	paper.OurGuess:   "our guess: please quote",
	paper.HisGuess:   "your estimate:\nplease confirm",
	paper.AfterStrip: "your quote, to be\nconfirmed after strip",
	paper.Agreed:     "agreed",
}

func (p *Papers) priceCell(l *plan.Line) string {
	price := paper.OrderPriceOf(p.Plan, l, p.Stops, p.StopsWhole)
	lines := []string{catalog.FormatMoney(price.Price), standings[price.Standing]}
	switch {
	case price.Call > price.Price:
		lines = append(lines, "call before you go\nabove "+catalog.FormatMoney(price.Call))
	case price.Standing != paper.Agreed:
		lines = append(lines, "call before you go above it")
	}
	return strings.Join(lines, "\n")
}

// sumUp adds the lot up at the foot of its table.
func sumUp(g *page.Grid, lot *paper.Lot) {
	row := func(what string, c catalog.Cents) { g.Sum("", "", what, catalog.FormatMoney(c), "", "") }
	row("work as above", lot.Work)
	if lot.Shortfall > 0 {
		row("up to your least charge for a lot, "+catalog.FormatMoney(lot.Minimum), lot.Shortfall)
	}
	if lot.Freight > 0 {
		row("freight there and back", lot.Freight)
	}
	row("in all", lot.Total)
}

// orderTerms are what holds for every piece. They leave room for what the order itself asks.
// Common practice, no published source.
var orderTerms = []string{
	"Strip and look first. Call before you go on where the price changes or a piece is worse than it looked.",
	"Nothing filled, soldered, built up or straightened beyond what stands above. " +
		"Spare lettering, thin edges, holes and threads.",
	"We send back what was not done as ordered: bare, milky or burnt patches, pits or scratches plated over, " +
		"edges or lettering polished away.",
	"Send back everything: pieces you can't do, fragments, loose hardware, bags and tags.",
}
