package report

import (
	"fmt"
	"html/template"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/chart"
	"brightset/model/ask"
	"brightset/model/plan"
)

// The charts are this program's own SVG, in which every text is escaped: they go into
// pages as they are.

// width is how wide a chart is drawn: letters are as large as the text beside it only where it is not
// made to fit. The zero value is for paper.
type width struct {
	units int
	name  string
}

// id tells one chart in two widths apart.
func (w width) id(chart string) string { return chart + w.name }

// The widths of the page: of a telephone and of all else.
var (
	narrow = width{336, "-narrow"}
	full   = width{640, ""}
)

func moneyChart(p *plan.Plan, w width) template.HTML {
	b := chart.Bars{
		Frame:    chart.Frame{ID: w.id("money-chart"), Width: w.units, Title: "Where the money goes"},
		Currency: p.Of.Job.Currency,
		Total:    "expected, in all",
	}
	for _, e := range plan.Expenses(p) {
		b.Bars = append(b.Bars, chart.Bar{Label: expenses[e.Kind], Cents: int64(e.Cents)})
	}
	return template.HTML(b.Draw().SVG)
}

func dotsChart(p *plan.Plan, w width, sums []catalog.Cents) template.HTML {
	d := chart.Dots{
		Frame:    chart.Frame{ID: w.id("dots-chart"), Width: w.units, Title: "Twenty jobs like this one"},
		Across:   "spent",
		Currency: p.Of.Job.Currency,
		Lines:    []chart.Line{{Label: "if all goes well", Cents: int64(p.Outlay)}},
	}
	for _, s := range sums {
		d.Sums = append(d.Sums, int64(s))
	}
	if p.Of.Job.Budget.Set && p.Of.Job.BudgetOn == catalog.OnOutlay {
		d.Limit = &chart.Line{Label: "budget", Cents: int64(p.Of.Job.Budget.V)}
	}
	return template.HTML(d.Draw().SVG)
}

func frontierChart(p *plan.Plan, w width, c *ask.Curve) template.HTML {
	f := chart.Frontier{
		Frame: chart.Frame{
			ID:    w.id("curve-chart"),
			Width: w.units,
			Title: "What more grade costs",
			Note:  "Each point is the cheapest set of its grade: the line shows what at least that grade costs.",
		},
		Across:   "mean grade of the set",
		Up:       "expected",
		Currency: p.Of.Job.Currency,
		Beyond:   "over budget",
		Flags:    []chart.Flag{{Point: planPoint(p), Label: "advised", Chief: true}},
	}
	for i := range c.Points {
		at := planPoint(c.Points[i].Plan)
		at.Beyond = !c.Points[i].Within
		f.Points = append(f.Points, at)
	}
	for _, m := range c.Marks {
		if m.Plan.Has {
			f.Flags = append(f.Flags, chart.Flag{Point: planPoint(m.Plan), Label: fmt.Sprintf("target %q", m.Name)})
		}
	}
	if p.Of.Job.Budget.Set && p.Of.Job.BudgetOn == catalog.OnExpected {
		f.Limit = &chart.Line{Label: "budget", Cents: int64(p.Of.Job.Budget.V)}
	}
	return template.HTML(f.Draw().SVG)
}

func planPoint(p *plan.Plan) chart.Point {
	return chart.Point{X: p.Grade, Cents: int64(p.Expected)}
}
