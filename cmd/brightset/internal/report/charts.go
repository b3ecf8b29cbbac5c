package report

import (
	"fmt"
	"html/template"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/chart"
	"brightset/model"
)

// The charts are this program's own SVG, in which every text is escaped: they go into
// pages as they are.

func moneyChart(st *catalog.State, parts []moneyPart) template.HTML {
	var bars []chart.Bar
	for _, p := range parts {
		bars = append(bars, chart.Bar{Label: p.what, Cents: int64(p.cents)})
	}
	if len(bars) == 0 {
		return ""
	}
	return template.HTML(chart.Bars("money-chart", "Where the money goes", st.Job.Currency, bars))
}

func dotsChart(st *catalog.State, p *model.Plan, sums []catalog.Cents) template.HTML {
	var all []int64
	for _, s := range sums {
		all = append(all, int64(s))
	}
	marks := []chart.Mark{{Label: "if all goes well", Cents: int64(p.Outlay)}}
	var limit *int64
	if st.Job.Budget.Set && st.Job.BudgetOn == catalog.OnOutlay {
		limit = new(int64(st.Job.Budget.V))
		marks = append(marks, chart.Mark{Label: "budget", Cents: *limit})
	}
	return template.HTML(chart.Dots("dots-chart", "Twenty jobs like this one", st.Job.Currency, all, marks, limit))
}

func frontierChart(st *catalog.State, p *model.Plan, c *model.Curve) template.HTML {
	var points []chart.Point
	for i := range c.Points {
		points = append(points, chart.Point{Grade: c.Points[i].Plan.Grade, Cents: int64(c.Points[i].Plan.Expected)})
	}
	flags := []chart.Flag{{Point: chart.Point{Grade: p.Grade, Cents: int64(p.Expected)}, Label: "advised", Ours: true}}
	for _, m := range c.Marks {
		if m.Plan.Has {
			flags = flagged(flags, chart.Point{Grade: m.Plan.Grade, Cents: int64(m.Plan.Expected)}, fmt.Sprintf("target %q", m.Name))
		}
	}
	return template.HTML(chart.Curve("curve-chart", "What more grade costs", st.Job.Currency, points, flags))
}

// flagged adds a flag; flags at one point are put together.
func flagged(flags []chart.Flag, at chart.Point, label string) []chart.Flag {
	for i := range flags {
		if flags[i].Point == at {
			flags[i].Label += ", " + label
			return flags
		}
	}
	return append(flags, chart.Flag{Point: at, Label: label})
}
