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

	Among    together // all jobs that are planned together; nil: this one alone
	Date     string
	Spec     bool   // a sheet per plater on what the standards ask
	Unfitted string // why pieces go out that were not test-fitted; "": they are held back
	Photo    func(piece *catalog.Piece, name string) template.URL
}

// Pages makes the sheets, each to stand alone. A piece that was not test-fitted is on no
// order, unless there is a reason: bending it after plating cracks the plating.
func (p *Papers) Pages() []*page.Page {
	own := p.all()
	all := own.orders()
	for _, one := range []*page.Page{p.benchSheet(), own.buySheet(), own.leftSheet(), p.todoCard(), p.huntCard(),
		p.quoteSheet()} {
		if one != nil {
			all = append(all, one)
		}
	}
	return all
}

// all are the papers of the jobs that are planned together.
func (p *Papers) all() together {
	if p.Among != nil {
		return p.Among
	}
	return together{p}
}

// typedJob is the job as it is typed behind a command, where there are several.
func (p *Papers) typedJob() string {
	if p.Among == nil {
		return ""
	}
	return " " + p.Plan.Of.Job.File
}

// Held are the pieces that go on no order yet.
func (p *Papers) Held() []string {
	all := []string{}
	for _, h := range p.held() {
		all = append(all, plan.PieceName(p.Plan.Of, h.Piece))
	}
	return all
}

// HeldCalled names the pieces that go on no order yet for a reader.
func (p *Papers) HeldCalled() []string {
	all := []string{}
	for _, h := range p.held() {
		all = append(all, plan.PieceCalled(p.Plan.Of, h.Piece))
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
