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

// todoCard is what to do now, in an order that works, on a card to carry; nil where there is
// nothing. What is sent or bought for several jobs is charged once for all: its sums stand on
// the sheets of what they share.
func (p *Papers) todoCard() *page.Page {
	st := p.Plan.Of
	var ticks []string
	for _, a := range paper.Todo(p.Plan) {
		head, tail := actText(st, &a)
		if p.Among != nil && slices.Contains([]paper.ActKind{paper.ActSend, paper.ActBuyFirst, paper.ActBuy}, a.Kind) {
			tail = ""
		}
		if pieces := piecesOf(st, &a); len(pieces) > 0 {
			head += ": " + join(pieces)
		}
		ticks = append(ticks, head+tail)
	}
	if len(ticks) == 0 {
		return nil
	}
	card := p.sheet("do-now", "To do now", "in this order; sums in "+st.Job.Currency)
	card.Pocket = true
	card.Blocks = []page.Block{{Ticks: ticks}}
	if p.Among != nil {
		card.Blocks[0].Small = []string{"What several jobs share is sent and bought once: see the orders and the list " +
			"of what to buy."}
	}
	return card
}

// huntCard is a list to carry: what to look out for and the most to pay. Positions for which
// one find is as good as for another share a row. nil where nothing is worth hunting for.
func (p *Papers) huntCard() *page.Page {
	h := p.Hunted
	if h == nil {
		return nil
	}
	st := p.Plan.Of
	g := page.NewGrid("=", "for, and what is good enough", ">pay at most")
	for _, row := range huntRows(h) {
		what := join(row.slots) + "\n" + row.look
		if row.use != "" {
			what += "\nthen: " + row.use
		}
		most := row.most
		if row.by != "" {
			most += "\nby " + row.by
		}
		g.Row("☐", what, most)
	}
	if len(g.Rows) == 0 && h.Whole {
		return nil
	}
	card := p.sheet("hunt", "To hunt for", fmt.Sprintf("top prices in %s, freight to the door included", st.Job.Currency))
	card.Pocket = true
	card.Blocks = []page.Block{{Grid: g, Small: []string{huntNote(h)}}}
	if !h.Whole {
		card.Blocks[0].Small = append(card.Blocks[0].Small, "Stopped early: not every find was looked at to the end.")
	}
	if pairs := pairTexts(h); len(pairs) > 0 {
		card.Blocks = append(card.Blocks, page.Block{Heading: "Worth something else together", List: pairs})
	}
	card.Blocks = append(card.Blocks, tourTicks(h)...)
	return card
}

// huntRow is what is looked out for, for one position or several.
type huntRow struct {
	slots               []string
	look, use, most, by string
}

// huntRows are the rows of a hunt; positions that ask for the same, at the same price, are one.
func huntRows(h *ask.Hunted) []huntRow {
	st := h.Plan.Of
	job := &st.Job
	var all []huntRow
	for _, finds := range h.Rows() {
		f := finds[0]
		row := huntRow{look: profiles(finds), most: worth(st, f)}
		if f.Choice.Work != catalog.WorkAsIs {
			row.use = plan.BriefWay(st, f.Choice)
		}
		if job.WithinDays.Set && job.Start.Set {
			row.by = job.Start.V.AddDate(0, 0, job.WithinDays.V-f.Choice.Days).Format("2006-01-02")
		}
		name := st.Slots[f.Slot].Name
		at := slices.IndexFunc(all, func(o huntRow) bool {
			return o.look == row.look && o.use == row.use && o.most == row.most && o.by == row.by
		})
		if at < 0 {
			row.slots = []string{name}
			all = append(all, row)
		} else if !slices.Contains(all[at].slots, name) {
			all[at].slots = append(all[at].slots, name)
		}
	}
	return all
}

// tourTicks are the places to try, in order.
func tourTicks(h *ask.Hunted) []page.Block {
	st := h.Plan.Of
	var all []page.Block
	for _, t := range ask.Tours(st, h) {
		b := page.Block{Heading: fmt.Sprintf("Where to look for: %s", st.Slots[h.Finds[t.Find].Slot].Name)}
		for _, try := range t.Tries {
			a := &st.Avenues[try.Avenue]
			where := a.Where
			if where == "" {
				where = a.ID
			}
			b.Ticks = append(b.Ticks, fmt.Sprintf("%s: %s a try, likely at %s; leave it out once one is had for %s or less",
				where, catalog.FormatMoney(a.Cost), catalog.FormatMoney(a.Likely), catalog.FormatMoney(try.Reserve)))
		}
		all = append(all, b)
	}
	return all
}
