package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// lots writes what goes to which plater, and what he will charge for the lot.
func lots(p *plan.Plan) string {
	var b strings.Builder
	for _, lot := range paper.Lots(p) {
		q := &p.Of.Platers[lot.Plater]
		sum := fmt.Sprintf("To %s: %s, work %s", plan.Called(q.Name, q.ID), count(lot.Pieces, "piece"),
			catalog.FormatMoney(lot.Work))
		if lot.Minimum > 0 {
			sum += ", least lot " + catalog.FormatMoney(lot.Minimum)
		}
		sum += fmt.Sprintf(", freight %s: %s", catalog.FormatMoney(lot.Freight), catalog.FormatMoney(lot.Total))
		b.WriteString(Paragraph("", "  ", sum))
		for _, i := range lot.Lines {
			b.WriteString(Paragraph("  - ", "    ", job(p.Of, &p.Lines[i])+partsBy(p, p.Lines[i].Choice, plan.ByPlater)))
		}
	}
	return b.String()
}

// bench writes what the shop does itself and what makers do, before anything is
// sent away.
func bench(p *plan.Plan) string {
	var shop, makers []string
	for i := range p.Lines {
		l := &p.Lines[i]
		if parts := partsBy(p, l.Choice, plan.ByShop); parts != "" {
			shop = append(shop, job(p.Of, l)+parts)
		}
		for _, part := range l.Choice.Parts {
			if part.Doer == plan.ByMaker {
				m := &p.Of.Makers[part.Maker]
				makers = append(makers, fmt.Sprintf("%s: %s by %s, %s", job(p.Of, l), partName(p.Of, part),
					plan.Called(m.Name, m.ID), catalog.FormatMoney(part.Cost)))
			}
		}
	}
	return list("On the shop's own bench:", shop) + list("At the makers':", makers)
}

// job names a line's slot and piece.
func job(st *catalog.State, l *plan.Line) string {
	c := l.Choice
	text := plan.OfSlot(st, l.Slot, c.Piece)
	if c.Level != "" {
		text += ", " + c.Level + " finish"
	}
	return text
}

// partsBy lists the parts of a choice that one kind of doer does, or "".
func partsBy(p *plan.Plan, c *plan.Choice, doer plan.Doer) string {
	var parts []string
	for _, part := range c.Parts {
		if part.Doer != doer {
			continue
		}
		text := partName(p.Of, part)
		if part.Hours > 0 {
			text += fmt.Sprintf(" %s h", catalog.FormatMicro(part.Hours))
		}
		if part.Cost > 0 {
			text += " " + catalog.FormatMoney(part.Cost)
		}
		parts = append(parts, text)
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, ", ")
}

// partName names a part: a trade work, plating itself, or fitting.
func partName(st *catalog.State, part plan.Part) string {
	switch {
	case part.Work != catalog.None:
		return st.Tables.Works[part.Work].Name
	case part.Doer == plan.ByPlater:
		return "plating"
	}
	return "fitting"
}

// purchases writes what to buy from whom.
func purchases(p *plan.Plan) string {
	var items []string
	for _, buy := range paper.Purchases(p) {
		who := "out of the shop's drawers"
		switch {
		case buy.Vendor != catalog.None:
			v := &p.Of.Vendors[buy.Vendor]
			who = "from " + plan.Called(v.Name, v.ID)
		case buy.Side == catalog.Vendors:
			who = "privately"
		}
		var what []string
		for _, i := range buy.Lines {
			c := p.Lines[i].Choice
			text := plan.PieceCalled(p.Of, c.Piece)
			if n := p.Of.Slots[c.Slot].Quantity; n > 1 {
				text = fmt.Sprintf("%d of %s", n, text)
			}
			what = append(what, text+" "+catalog.FormatMoney(c.Get))
		}
		for _, b := range buy.Bundles {
			sum := plan.ChargeOf(p, plan.ChargeBundle, b)
			what = append(what, plan.BundleText(&p.Of.Bundles[b], sum)+" "+catalog.FormatMoney(sum))
		}
		if buy.Freight > 0 {
			what = append(what, "freight "+catalog.FormatMoney(buy.Freight))
		}
		items = append(items, fmt.Sprintf("%s: %s; %s in all", who, strings.Join(what, ", "), catalog.FormatMoney(buy.Total)))
	}
	return list("To buy:", items)
}

// trades writes which piece is given for which.
func trades(p *plan.Plan) string {
	var items []string
	for _, c := range p.Charges {
		if c.Kind == plan.ChargeTrade {
			t := &p.Of.Trades[c.Of]
			items = append(items, fmt.Sprintf("%s: give %s for %s, credit %s", t.ID,
				plan.PieceCalled(p.Of, t.Give), plan.PieceCalled(p.Of, t.Get), catalog.FormatMoney(t.Credit)))
		}
	}
	return list("To trade:", items)
}

// reserve reminds that fallbacks are not to be let go.
func reserve(p *plan.Plan) string {
	var held []string
	for i := range p.Lines {
		if f := p.Lines[i].Fallback; f != nil {
			piece := p.PieceOf(f)
			l := &p.Lines[i]
			text := fmt.Sprintf("%s for %s", plan.PieceCalled(p.Of, f.Piece), p.SlotOf(l).Name)
			if l.Sharing != nil && l.Sharing.With < l.Slot {
				continue // named with the other slot
			}
			if l.Sharing != nil {
				text += " and " + p.Of.Slots[l.Sharing.With].Name + " together"
			}
			if piece.Side != catalog.Customers {
				text += " (" + source(p.Of, piece) + ": have it held)"
			}
			held = append(held, text)
		}
	}
	if len(held) == 0 {
		return ""
	}
	return list("Held in reserve until the pieces are back:", held)
}

// leftovers writes what the plan does not use, by what becomes of it.
func leftovers(p *plan.Plan) string {
	var advices []string
	pieces := map[string][]string{}
	for _, s := range paper.Leftover(p) {
		text := plan.PieceCalled(p.Of, s.Piece)
		if n := p.Of.Pieces[s.Piece].Quantity; n > 1 {
			text = fmt.Sprintf("%d of %s", s.Quantity, text)
		}
		whose := s.Advice
		if s.Side == catalog.Vendors {
			whose = source(p.Of, &p.Of.Pieces[s.Piece]) + ": " + s.Advice
		}
		if pieces[whose] == nil {
			advices = append(advices, whose)
		}
		pieces[whose] = append(pieces[whose], text)
	}
	var items []string
	for _, a := range advices {
		items = append(items, strings.Join(pieces[a], ", ")+" - "+a)
	}
	return list("Left over; nothing is thrown away before the set hangs:", items)
}

// list writes items under a heading, or "" where there are none.
func list(heading string, items []string) string {
	if len(items) == 0 {
		return ""
	}
	var b strings.Builder
	if heading != "" {
		b.WriteString(heading + "\n")
	}
	for _, item := range items {
		b.WriteString(Paragraph("  - ", "    ", item))
	}
	return b.String()
}
