package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/paper"
	"brightset/model/plan"
)

// together are the papers of one job or several of one shop. What leaves the shop for several
// jobs stands on one sheet.
type together []*Papers

func (t together) plans() (all []*plan.Plan) {
	for _, p := range t {
		all = append(all, p.Plan)
	}
	return all
}

func (t together) held() (all [][]paper.Held) {
	for _, p := range t {
		all = append(all, p.held())
	}
	return all
}

// of names a job where there are several, as it stands on tags; "" where there is one.
func (t together) of(job int) string {
	if len(t) < 2 {
		return ""
	}
	return fmt.Sprintf("job %d", job+1)
}

// marked is a text about something of a job, with the job's name before it.
func (t together) marked(job int, text string) string {
	if mark := t.of(job); mark != "" {
		return mark + ", " + text
	}
	return text
}

// orders are the orders for platers, each with what the standards ask of it, and for makers.
func (t together) orders() []*page.Page {
	var all []*page.Page
	for _, lot := range paper.CommonLots(t.plans(), t.held()) {
		if len(lot.Parts) == 0 {
			continue
		}
		all = append(all, t.platerOrder(&lot))
		if spec := t.specSheet(&lot); t[0].Spec && spec != nil {
			all = append(all, spec)
		}
	}
	done := map[string]bool{}
	for j, p := range t {
		for m := range p.Plan.Of.Makers {
			maker := &p.Plan.Of.Makers[m]
			if ours := maker.From.Source == catalog.JobFile; ours || !done[maker.ID] {
				done[maker.ID] = done[maker.ID] || !ours
				if one := t.makerOrder(j, m); one != nil {
					all = append(all, one)
				}
			}
		}
	}
	return all
}

// makerOrder is the order for someone who does other works, as one of the jobs knows him; nil
// where there is none. One who stands in a job's own file is that job's alone.
func (t together) makerOrder(job, m int) *page.Page {
	maker := &t[job].Plan.Of.Makers[m]
	g := page.NewGrid("tag", "piece", "marks", "work", ">hours")
	for j, p := range t {
		if j == job || maker.From.Source != catalog.JobFile {
			t.makerRows(g, j, maker.ID, p)
		}
	}
	if len(g.Rows) == 0 {
		return nil
	}
	sheet := t[0].sheet(fileName("maker", maker.ID), "Order", "for "+plan.Called(maker.Name, maker.ID))
	sheet.From, sheet.Dense = t[0].ourShop(), true
	sheet.Blocks = []page.Block{
		{
			Heading: "What is to be done",
			Grid:    g,
			Signs:   []string{"out: our shop, date", "in: maker, date", "back: our shop, date"},
		},
		{
			List: []string{"Before plating: no filler, no solder that the bath would attack, without asking.",
				"Hours are our estimate; call if it takes more than half as long again.",
				"Send back the old parts and all fragments."},
		},
		{Care: benchCare},
	}
	return sheet
}

func (t together) makerRows(g *page.Grid, job int, maker string, p *Papers) {
	st := p.Plan.Of
	for i := range p.Plan.Lines {
		c := p.Plan.Lines[i].Choice
		for _, part := range c.Parts {
			if part.Doer == plan.ByMaker && st.Makers[part.Maker].ID == maker {
				piece := &st.Pieces[c.Piece]
				g.Row(t.tag(job, piece), plan.Called(piece.Name, plan.PieceName(st, c.Piece)), orNone(piece.Marks),
					partName(st, part), catalog.FormatMicro(part.Hours))
			}
		}
	}
}

// tag is what is tied to a piece, with its job where there are several: pieces of two jobs
// may be called the same.
func (t together) tag(job int, p *catalog.Piece) string {
	if mark := t.of(job); mark != "" {
		return tagOf(p) + "\n" + mark
	}
	return tagOf(p)
}

// buySheet is what to buy from whom; nil where nothing is.
func (t together) buySheet() *page.Page {
	sheet := t[0].sheet("buy", "To buy", "")
	for _, buy := range paper.CommonPurchases(t.plans()) {
		sheet.Blocks = append(sheet.Blocks, t.bought(&buy))
	}
	if len(sheet.Blocks) == 0 {
		return nil
	}
	sheet.Blocks = append(sheet.Blocks, page.Block{
		Small: []string{"What is held in reserve is not bought before it is needed: ask the seller to hold it."},
	})
	return sheet
}

// bought is what is bought from one seller.
func (t together) bought(buy *paper.CommonPurchase) page.Block {
	seller := &buy.Parts[0]
	st := t[seller.Job].Plan.Of
	who := "Out of the shop's drawers"
	switch {
	case seller.Vendor != catalog.None:
		who = plan.Called(st.Vendors[seller.Vendor].Name, st.Vendors[seller.Vendor].ID)
	case seller.Side == catalog.Vendors:
		who = "Privately"
	}
	g := page.NewGrid("piece", "for", ">pieces", ">"+st.Job.Currency)
	for _, part := range buy.Parts {
		own := t[part.Job].Plan
		for _, i := range part.Lines {
			c := own.Lines[i].Choice
			slot := &own.Of.Slots[c.Slot]
			g.Row(plan.Called(own.Of.Pieces[c.Piece].Name, plan.PieceName(own.Of, c.Piece)), t.marked(part.Job, slot.Name),
				fmt.Sprint(slot.Quantity), catalog.FormatMoney(c.Get))
		}
	}
	for _, b := range buy.Bundles {
		var whom []string
		for n, job := range b.Jobs {
			whom = append(whom, t.marked(job, bundleFor(t[job].Plan, b.Of[n])))
		}
		sum := catalog.FormatMoney(b.Price)
		of := &t[b.Jobs[0]].Plan.Of.Bundles[b.Of[0]]
		if b.Price == 0 && of.Price > 0 {
			sum = "as above"
		}
		g.Row(plan.BundleText(of, b.Price), strings.Join(whom, "\n"), "", sum)
	}
	if buy.Freight > 0 {
		g.Row("freight", "", "", catalog.FormatMoney(buy.Freight))
	}
	g.Sum("in all", "", "", catalog.FormatMoney(buy.Total))
	return page.Block{Heading: who, Grid: g}
}
