package report

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/paper"
	"brightset/model/plan"
)

// waiting says what goes on no order yet, why, and what it takes; what that does to a lot;
// and what to note of the pieces that do go. It is for the shop's own list.
func (p *Papers) waiting() []page.Block {
	var all []page.Block
	if held := p.held(); len(held) > 0 {
		g := page.NewGrid("piece", "for", "why it waits", "what it takes")
		for _, h := range held {
			why, takes := "nobody has tried it on", "try it on the object, then type: brightset record fitted "+
				p.typedTry(h)+p.typedJob()
			if h.With != catalog.None {
				why, takes = "has to match "+p.Plan.Of.Slots[h.With].Name+", which waits", "goes with it, in one lot"
			}
			g.Row(plan.PieceCalled(p.Plan.Of, h.Piece), p.Plan.Of.Slots[h.Slot].Name, why, takes)
		}
		all = append(all, page.Block{Heading: "Held back, on no order", Grid: g, Small: p.all().lotsWithout()})
	}
	if notes := p.beforeItGoes(); len(notes) > 0 {
		all = append(all, page.Block{Heading: "Before they go", Ticks: notes, Small: []string{
			"What is not marked, photographed and counted can't be asked for afterwards."}})
	}
	return all
}

// lotsWithout says what becomes of the lots while pieces wait.
func (t together) lotsWithout() []string {
	notes := []string{"Bending a piece after plating cracks the plating."}
	whole := paper.CommonLots(t.plans(), make([][]paper.Held, len(t)))
	for n, now := range paper.CommonLots(t.plans(), t.held()) {
		part := &whole[n].Parts[0]
		name := t[part.Job].Plan.Of.Platers[part.Plater].Name
		switch more := now.Whole.Shortfall - whole[n].Whole.Shortfall; {
		case len(now.Parts) == 0:
			notes = append(notes, fmt.Sprintf("Nothing goes to %s while they wait.", name))
		case more > 0:
			notes = append(notes, fmt.Sprintf("Without them the work for %s comes to %s, and his least charge for a lot is %s: "+
				"%s more than planned. Try them on first and send all in one lot.", name, catalog.FormatMoney(now.Whole.Work),
				catalog.FormatMoney(now.Whole.Minimum), catalog.FormatMoney(more)))
		}
	}
	return notes
}

// beforeItGoes lists what nobody has noted of the pieces that go to platers.
func (p *Papers) beforeItGoes() []string {
	var notes []string
	held := p.held()
	for _, lot := range paper.Lots(p.Plan) {
		for _, i := range paper.GoesNow(p.Plan, lot, held).Lines {
			piece := p.Plan.PieceOf(p.Plan.Lines[i].Choice)
			var missing []string
			for _, m := range []struct {
				what string
				is   bool
			}{{"a photo", len(piece.Photos) == 0}, {"a mark scribed on it", piece.Marks == ""},
				{"what hardware goes with it", len(piece.Hardware) == 0}} {
				if m.is {
					missing = append(missing, m.what)
				}
			}
			if len(missing) > 0 {
				notes = append(notes, plan.PieceCalled(p.Plan.Of, p.Plan.Lines[i].Choice.Piece)+": "+join(missing))
			}
		}
	}
	return notes
}

// walkAway are the most that we would pay, beside what stands on the platers' orders. They
// stay in the shop.
func (p *Papers) walkAway() []page.Block {
	g := page.NewGrid("piece", "plater", ">on his order", ">he calls above", ">the most we pay")
	for i := range p.Plan.Lines {
		l := &p.Plan.Lines[i]
		at := slices.IndexFunc(p.Stops, func(s ask.StopPrice) bool { return s.Slot == l.Slot })
		if at < 0 {
			continue
		}
		price := paper.OrderPriceOf(p.Plan, l, p.Stops, p.StopsWhole)
		most := "no end: nothing else could hang there"
		if s := &p.Stops[at]; !s.NoOther || s.ByBudget {
			most = catalog.FormatMoney(catalog.Cents(max(1, p.Plan.SlotOf(l).Quantity)) * s.Highest)
		}
		g.Row(plan.PieceCalled(p.Plan.Of, l.Choice.Piece), p.Plan.Of.Platers[l.Choice.Plater].Name,
			catalog.FormatMoney(price.Price), catalog.FormatMoney(price.Call), most)
	}
	if len(g.Rows) == 0 {
		return nil
	}
	return []page.Block{{Heading: "When he calls with a price", Grid: g, Small: []string{
		"The last column stays in the shop: above it another set is cheaper, or the budget is broken."}}}
}

// andMates says that some pieces wait only for those they have to match.
func (p *Papers) andMates() string {
	for _, h := range p.held() {
		if h.With != catalog.None {
			return ", or they have to match one that waits"
		}
	}
	return ""
}

// firstUntried is a piece that waits for itself: there is one wherever any waits.
func (p *Papers) firstUntried() string {
	for _, h := range p.held() {
		if h.With == catalog.None {
			return p.typedTry(h)
		}
	}
	return ""
}

// typedTry is what is typed of a piece that was tried on: where, too, if it fits more than
// one slot.
func (p *Papers) typedTry(h paper.Held) string {
	st := p.Plan.Of
	text := plan.PieceName(st, h.Piece)
	if len(st.Pieces[h.Piece].Fits) > 1 {
		text += " --slot " + st.Slots[h.Slot].ID
	}
	return text
}

// tryOn are the slots in which pieces have to be tried on before anything goes out.
func (p *Papers) tryOn() []string {
	slots := []string{}
	for _, h := range p.held() {
		if h.With == catalog.None {
			slots = append(slots, p.Plan.Of.Slots[h.Slot].ID)
		}
	}
	return unique(slots)
}
