package report

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/plan"
)

// quoteSheet is what the owner gets: lines in the owner's words, no name of a plater,
// maker or vendor; nil where the files have no [quote].
func (p *Papers) quoteSheet() *page.Page {
	if p.Sums == nil || !p.Plan.Of.Quote.Given {
		return nil
	}
	st, q := p.Plan.Of, &p.Plan.Of.Quote
	sheet := p.sheet("quote", "Quote", "")
	if q.For != "" {
		sheet.Sub = "for " + q.For
	}
	lead := []string{fmt.Sprintf("What it takes to hang the whole set of bright trim: one piece in every position, "+
		"good enough for the finish asked for. All sums in %s.", st.Job.Currency)}
	if q.By != "" {
		lead = append(lead, q.By)
	}
	sheet.Blocks = append(sheet.Blocks, page.Block{Text: lead},
		page.Block{Heading: "Position by position", Grid: p.ownerGrid()})
	sheet.Blocks = append(sheet.Blocks, p.ownersBudget()...)
	sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "What may come on top", Text: p.onTop()})
	sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "When it is paid", Grid: p.stagesGrid()})
	sheet.Blocks = append(sheet.Blocks, p.mayBreak()...)
	if list := p.decidedAgainst(); len(list) > 0 {
		sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "What was looked at and decided against", List: list})
	}
	sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "Not part of it", List: append(p.exclusions(), q.Excluded...)})
	keeps := "Pieces that are not used stay yours and come back to you when the set hangs."
	if q.Keeps == catalog.ByShop {
		keeps = "Pieces that are not used stay with the shop, unless you ask for them before the work begins."
	}
	sheet.Blocks = append(sheet.Blocks, page.Block{Heading: "Old pieces", Text: []string{keeps}},
		page.Block{
			Text:  []string{fmt.Sprintf("This quote holds for %s from %s.", count(q.ValidDays, "day"), p.Date)},
			Signs: []string{"agreed: owner, date", "for the shop, date"},
		})
	return sheet
}

// ownerGrid has a line per slot and the sums.
func (p *Papers) ownerGrid() *page.Grid {
	st, s := p.Plan.Of, p.Sums
	g := page.NewGrid("position", "what is done", "=finish", ">"+st.Job.Currency, ">limit")
	g.Caption = "A position with a limit never goes above it before you have been asked."
	for i := range s.Lines {
		o := &s.Lines[i]
		c := p.Plan.Lines[i].Choice
		limit := ""
		if o.Limit > 0 {
			limit = catalog.FormatMoney(o.Limit)
		}
		g.Row(st.Slots[o.Slot].Name, inOwnersWords(st, c), gradeText(st, c.Grade), catalog.FormatMoney(o.Total), limit)
	}
	if s.Spent != 0 {
		g.Row("work and parts paid for already", "", "", catalog.FormatMoney(s.Spent), "")
	}
	if s.Carriage != 0 {
		g.Row(p.carriage(), "", "", catalog.FormatMoney(s.Carriage), "")
	}
	if s.Tax != 0 {
		g.Sum("net", "", "", catalog.FormatMoney(s.Net), "")
		g.Sum(fmt.Sprintf("tax, %s", Percent(st.Quote.Tax)), "", "", catalog.FormatMoney(s.Tax), "")
	}
	g.Sum("in all", "", "", catalog.FormatMoney(s.Total), "")
	return g
}

// carriage is what is charged beside the positions: what is sold together stands in none of them.
func (p *Papers) carriage() string {
	for _, c := range p.Plan.Charges {
		if c.Kind == plan.ChargeBundle {
			return "pieces that are sold together only, carriage and least charges"
		}
	}
	return "carriage and least charges"
}

// inOwnersWords says what is done without names of the trade's people.
func inOwnersWords(st *catalog.State, c *plan.Choice) string {
	piece := &st.Pieces[c.Piece]
	whose := map[catalog.Side]string{catalog.Customers: ownersOwn(st, piece), catalog.Shops: "a piece out of our stock",
		catalog.Vendors: "a piece that we buy"}[piece.Side]
	if piece.Side != catalog.Customers {
		whose += map[catalog.Kind]string{catalog.Original: ", original", catalog.OldStock: ", unused and of the period",
			catalog.Reproduction: ", a reproduction"}[piece.Kind]
	}
	done := map[string]string{
		catalog.WorkAsIs: "fitted as it is", catalog.WorkClean: "cleaned and polished",
		catalog.WorkReplate: "stripped and plated anew", catalog.WorkRepair: "stripped, mended and plated anew",
	}[c.Work]
	return whose + ", " + done
}

// ownersOwn is what a piece of the owner's is to him: what came off the object is his own. Where
// the files say of no piece that it did, nobody can tell.
func ownersOwn(st *catalog.State, piece *catalog.Piece) string {
	switch {
	case piece.Off:
		return "your own piece"
	case slices.ContainsFunc(st.Pieces, func(p catalog.Piece) bool { return p.Off }):
		return "a spare of yours"
	}
	return "a piece of yours"
}

// leftToPay is the last row of what is paid when.
func leftToPay(rest catalog.Cents) (what, sum string) {
	if rest < 0 {
		return "paid too much, comes back to you", catalog.FormatMoney(-rest)
	}
	return "still to be paid in all", catalog.FormatMoney(rest)
}

// onTop says what is set aside for what nobody can know beforehand.
func (p *Papers) onTop() []string {
	s := p.Sums
	if s.Contingency <= 0 {
		return []string{"Nothing in this plan is likely to come dearer."}
	}
	return []string{fmt.Sprintf("Old pieces show their faults only when the plating is off. Set aside %s for that: "+
		"in nine of ten jobs like this one it is enough. It is charged only as far as it is needed, "+
		"and no position goes above its limit before you have been asked.", catalog.FormatMoney(s.Contingency))}
}

func (p *Papers) stagesGrid() *page.Grid {
	s := p.Sums
	g := page.NewGrid("when", ">"+p.Plan.Of.Job.Currency)
	if s.Deposit > 0 {
		g.Row("with the order", catalog.FormatMoney(s.Deposit))
	}
	if s.AfterStrip > 0 {
		g.Row("when you have approved the prices after stripping", catalog.FormatMoney(s.AfterStrip))
	}
	g.Row("when the set hangs", catalog.FormatMoney(s.Balance))
	g.Sum("in all", catalog.FormatMoney(s.Total))
	if paid := p.Plan.Of.Quote.Paid; paid > 0 {
		g.Sum("paid so far, with thanks", catalog.FormatMoney(paid))
		if due := s.Deposit - paid; due > 0 {
			g.Sum("due now, of what comes with the order", catalog.FormatMoney(due))
		}
		g.Sum(leftToPay(s.Total - paid))
	}
	return g
}

// exclusions stand under every quote.
func (p *Papers) exclusions() []string {
	return []string{
		"faults that show only when other parts of the object come off",
		"pieces that belong to no position named above",
	}
}
