package report

import (
	"html/template"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/paper"
	"brightset/model/plan"
)

// Papers is everything that the sheets for other people are made of.
type Papers struct {
	Plan     *plan.Plan
	Stops    []ask.StopPrice
	Hunted   *ask.Hunted      // nil: no hunt list
	Sums     *paper.OwnerSums // nil: no quote to the owner
	Rejected []ask.RejectedPiece

	StopsWhole, RejectedWhole bool // of all pieces; else time ran out

	Date     string
	Spec     bool   // a sheet per plater on what the standards ask
	Unfitted string // why pieces go out that were not test-fitted; "": they are held back
	Photo    func(piece *catalog.Piece, name string) template.URL
}

// Pages makes the sheets, each to stand alone. A piece that was not test-fitted is on no
// order, unless there is a reason: bending it after plating cracks the plating.
func (p *Papers) Pages() []*page.Page {
	var all []*page.Page
	for _, lot := range paper.Lots(p.Plan) {
		if one := p.platerOrder(&lot); one != nil {
			all = append(all, one)
			if spec := p.specSheet(&lot); p.Spec && spec != nil {
				all = append(all, spec)
			}
		}
	}
	for m := range p.Plan.Of.Makers {
		if one := p.makerOrder(m); one != nil {
			all = append(all, one)
		}
	}
	for _, one := range []*page.Page{p.benchSheet(), p.buySheet(), p.leftSheet(), p.huntSheet(), p.quoteSheet()} {
		if one != nil {
			all = append(all, one)
		}
	}
	return all
}

// Held are the pieces that go on no order yet.
func (p *Papers) Held() []string {
	all := []string{}
	for _, h := range p.held() {
		all = append(all, plan.PieceName(p.Plan.Of, h.Piece))
	}
	return all
}

// held are the pieces that go on no order; none where there is a reason to send them all.
func (p *Papers) held() []paper.Held {
	if p.Unfitted != "" {
		return nil
	}
	return paper.HeldBack(p.Plan)
}

// sheet starts a page with what all have.
func (p *Papers) sheet(name, title, sub string) *page.Page {
	return &page.Page{
		Name:  name,
		Title: title,
		Sub:   sub,
		Job:   p.Plan.Of.Job.Title,
		Date:  p.Date,
		Plan:  plan.Fingerprint(p.Plan),
	}
}

// makerOrder is the order for someone who does other works; nil where there is none.
func (p *Papers) makerOrder(m int) *page.Page {
	st := p.Plan.Of
	maker := &st.Makers[m]
	g := page.NewGrid("tag", "piece", "marks", "work", ">hours")
	for i := range p.Plan.Lines {
		c := p.Plan.Lines[i].Choice
		for _, part := range c.Parts {
			if part.Doer == plan.ByMaker && part.Maker == m && !c.Sent {
				piece := &st.Pieces[c.Piece]
				g.Row(tagOf(piece), named(piece.Name, plan.PieceName(st, c.Piece)), orNone(piece.Marks), partName(st, part),
					catalog.FormatMicro(part.Hours))
			}
		}
	}
	if len(g.Rows) == 0 {
		return nil
	}
	sheet := p.sheet(fileName("maker", maker.ID), "Order", "for "+named(maker.Name, maker.ID))
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

// tagOf is what is tied to a piece: its tag, else its id.
func tagOf(p *catalog.Piece) string {
	if p.Tag != "" {
		return p.Tag
	}
	return p.ID
}

func orNone(s string) string {
	if s == "" {
		return "none noted"
	}
	return s
}
