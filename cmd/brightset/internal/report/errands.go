package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// lots writes what goes to which plater, and what he will charge for the lot.
func lots(st *catalog.State, p *plan.Plan) string {
	var b strings.Builder
	for _, lot := range paper.Lots(st, p) {
		q := &st.Platers[lot.Plater]
		sum := fmt.Sprintf("To %s: %s, work %s", named(q.Name, q.ID), count(lot.Pieces, "piece"), catalog.FormatMoney(lot.Work))
		if lot.Minimum > 0 {
			sum += ", least lot " + catalog.FormatMoney(lot.Minimum)
		}
		sum += fmt.Sprintf(", freight %s: %s", catalog.FormatMoney(lot.Freight), catalog.FormatMoney(lot.Total))
		b.WriteString(Paragraph("", "  ", sum))
		for _, i := range lot.Lines {
			b.WriteString(Paragraph("  - ", "    ", job(st, &p.Lines[i])+partsBy(st, p.Lines[i].Choice, plan.ByPlater)))
		}
	}
	return b.String()
}

// bench writes what the shop does itself and what makers do, before anything is
// sent away.
func bench(st *catalog.State, p *plan.Plan) string {
	var shop, makers []string
	for i := range p.Lines {
		l := &p.Lines[i]
		if parts := partsBy(st, l.Choice, plan.ByShop); parts != "" {
			shop = append(shop, job(st, l)+parts)
		}
		for _, part := range l.Choice.Parts {
			if part.Doer == plan.ByMaker {
				m := &st.Makers[part.Maker]
				makers = append(makers, fmt.Sprintf("%s: %s by %s, %s", job(st, l), partName(st, part),
					named(m.Name, m.ID), catalog.FormatMoney(part.Cost)))
			}
		}
	}
	return list("On the shop's own bench:", shop) + list("At the makers':", makers)
}

// job names a line's slot and piece.
func job(st *catalog.State, l *plan.Line) string {
	c := l.Choice
	text := st.Slots[l.Slot].ID + ": " + plan.PieceName(st, c.Piece)
	if c.Level != "" {
		text += ", " + c.Level
	}
	return text
}

// partsBy lists the parts of a choice that one kind of doer does, or "".
func partsBy(st *catalog.State, c *plan.Choice, doer plan.Doer) string {
	var parts []string
	for _, part := range c.Parts {
		if part.Doer != doer {
			continue
		}
		text := partName(st, part)
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
func purchases(st *catalog.State, p *plan.Plan) string {
	var items []string
	for _, buy := range paper.Purchases(st, p) {
		who := "out of the shop's drawers"
		switch {
		case buy.Vendor != catalog.None:
			v := &st.Vendors[buy.Vendor]
			who = "from " + named(v.Name, v.ID)
		case buy.Side == catalog.Vendors:
			who = "privately"
		}
		var what []string
		for _, i := range buy.Lines {
			c := p.Lines[i].Choice
			text := plan.PieceName(st, c.Piece)
			if n := st.Slots[c.Slot].Quantity; n > 1 {
				text = fmt.Sprintf("%d of %s", n, text)
			}
			what = append(what, text+" "+catalog.FormatMoney(c.Get))
		}
		for _, b := range buy.Bundles {
			what = append(what, "bundle "+st.Bundles[b].ID+" "+catalog.FormatMoney(st.Bundles[b].Price))
		}
		if buy.Freight > 0 {
			what = append(what, "freight "+catalog.FormatMoney(buy.Freight))
		}
		items = append(items, fmt.Sprintf("%s: %s; %s in all", who, strings.Join(what, ", "), catalog.FormatMoney(buy.Total)))
	}
	return list("To buy:", items)
}

// trades writes which piece is given for which.
func trades(st *catalog.State, p *plan.Plan) string {
	var items []string
	for _, c := range p.Charges {
		if c.Kind == plan.ChargeTrade {
			t := &st.Trades[c.Of]
			items = append(items, fmt.Sprintf("%s: give %s for %s, credit %s", t.ID,
				plan.PieceName(st, t.Give), plan.PieceName(st, t.Get), catalog.FormatMoney(t.Credit)))
		}
	}
	return list("To trade:", items)
}

// reserve reminds that fallbacks are not to be let go.
func reserve(st *catalog.State, p *plan.Plan) string {
	var held []string
	for i := range p.Lines {
		if f := p.Lines[i].Fallback; f != nil {
			piece := &st.Pieces[f.Piece]
			l := &p.Lines[i]
			text := fmt.Sprintf("%s for %s", plan.PieceName(st, f.Piece), st.Slots[l.Slot].ID)
			if l.Sharing != nil && l.Sharing.With < l.Slot {
				continue // named with the other slot
			}
			if l.Sharing != nil {
				text += " and " + st.Slots[l.Sharing.With].ID + " together"
			}
			if piece.Side != catalog.Customers {
				text += " (" + source(st, piece) + ": have it held)"
			}
			held = append(held, text)
		}
	}
	if len(held) == 0 {
		return ""
	}
	return "Held in reserve until the pieces are back:\n" + Paragraph("  ", "  ", strings.Join(held, ", "))
}

// leftovers writes what the plan does not use, by what becomes of it.
func leftovers(st *catalog.State, p *plan.Plan) string {
	var advices []string
	pieces := map[string][]string{}
	for _, s := range paper.Leftover(st, p) {
		text := plan.PieceName(st, s.Piece)
		if n := st.Pieces[s.Piece].Quantity; n > 1 {
			text = fmt.Sprintf("%d of %s", s.Quantity, text)
		}
		whose := s.Advice
		if s.Side == catalog.Vendors {
			whose = source(st, &st.Pieces[s.Piece]) + ": " + s.Advice
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
