package report

import (
	"fmt"

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
		if o.Limit > o.Total {
			limit = catalog.FormatMoney(o.Limit)
		}
		g.Row(st.Slots[o.Slot].Name, inOwnersWords(st, c), gradeText(st, c.Grade), catalog.FormatMoney(o.Total), limit)
	}
	if s.Spent != 0 {
		g.Row("work and parts paid for already", "", "", catalog.FormatMoney(s.Spent), "")
	}
	if s.Carriage != 0 {
		g.Row("carriage and least charges", "", "", catalog.FormatMoney(s.Carriage), "")
	}
	if s.Tax != 0 {
		g.Sum("net", "", "", catalog.FormatMoney(s.Net), "")
		g.Sum(fmt.Sprintf("tax, %s", Percent(st.Quote.Tax)), "", "", catalog.FormatMoney(s.Tax), "")
	}
	g.Sum("in all", "", "", catalog.FormatMoney(s.Total), "")
	return g
}

// inOwnersWords says what is done without names of the trade's people.
func inOwnersWords(st *catalog.State, c *plan.Choice) string {
	piece := &st.Pieces[c.Piece]
	whose := map[catalog.Side]string{catalog.Customers: "your own piece", catalog.Shops: "a piece out of our stock",
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
	return g
}

// mayBreak names what is at risk, and who bears it.
func (p *Papers) mayBreak() []page.Block {
	st := p.Plan.Of
	var list []string
	for i := range p.Plan.Lines {
		c := p.Plan.Lines[i].Choice
		if c.Breakage < catalog.One/200 {
			continue
		}
		list = append(list, fmt.Sprintf("%s: about one in %d such pieces does not survive the work", st.Slots[c.Slot].Name,
			max(1, int((catalog.One+c.Breakage/2)/c.Breakage))))
	}
	if len(list) == 0 {
		return nil
	}
	bears := "The owner bears the loss of a piece of his own; the work on it that was not finished is not charged."
	if st.Quote.Bears == catalog.ByShop {
		bears = "The shop bears it: a piece that breaks in the work is replaced at no cost to you."
	}
	return []page.Block{{Heading: "What may break, and who bears it", List: list, Text: []string{bears}}}
}

// decidedAgainst tells about the owner's own pieces that are not hung.
func (p *Papers) decidedAgainst() []string {
	st := p.Plan.Of
	hangs := map[int]bool{}
	for i := range p.Plan.Lines {
		hangs[p.Plan.Lines[i].Choice.Piece] = true
	}
	var all []string
	for i := range p.Rejected {
		r := &p.Rejected[i]
		piece := &st.Pieces[r.Piece]
		if piece.Side != catalog.Customers || hangs[r.Piece] {
			continue
		}
		text := fmt.Sprintf("%s: %s, ", st.Slots[r.Slot].Name, named(piece.Name, plan.PieceName(st, r.Piece)))
		switch {
		case r.Why != "":
			text += "not good enough: " + r.Why
		case r.Both:
			text += "with it no whole set does what was asked for"
		case r.Keeps < 0:
			text += "it is none of the object's own, which is worth keeping to you"
		case r.More > 0:
			text += fmt.Sprintf("the set would cost about %s more with it", catalog.FormatMoney(r.More))
		default:
			text += "as good, and costs the same"
		}
		all = append(all, text)
	}
	return all
}

// exclusions stand under every quote.
func (p *Papers) exclusions() []string {
	return []string{
		"faults that show only when other parts of the object come off",
		"pieces that belong to no position named above",
	}
}
