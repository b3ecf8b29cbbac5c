package report

import (
	"html/template"

	"brightset/catalog"
	"brightset/model"
)

func moneyChart(st *catalog.State, parts []moneyPart) template.HTML { return "" }

func dotsChart(st *catalog.State, p *model.Plan, sums []catalog.Cents) template.HTML { return "" }

func frontierChart(st *catalog.State, p *model.Plan, c *model.Curve) template.HTML { return "" }
