package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/risk"
)

// Whole is everything that the report says.
type Whole struct {
	Papers
	Curve   *ask.Curve
	Risk    *risk.Risk
	Sim     *risk.Simulation
	Unknown *Unknown
	Since   *Since
}

// Page makes the report: one page that stands alone.
func (w *Whole) Page() *page.Page {
	st := w.Plan.Of
	sheet := w.sheet("report", st.Job.Title, "what to do for every slot, what it costs, and why")
	sheet.Wide = true
	sheet.Blocks = append(sheet.Blocks, earlyBlock(w.Early())...)
	sheet.Blocks = append(sheet.Blocks, w.summary()...)
	sheet.Blocks = append(sheet.Blocks, w.money(), w.twentyJobs(), w.curve())
	sheet.Blocks = append(sheet.Blocks, w.turns()...)
	sheet.Blocks = append(sheet.Blocks, w.hunts()...)
	sheet.Blocks = append(sheet.Blocks, w.slots()...)
	sheet.Blocks = append(sheet.Blocks, w.restsOn(), page.Block{
		Heading: "Take care",
		ID:      "care",
		Care:    append(append([]string{}, platerCare...), benchCare...),
	})
	var links []page.Link
	for _, b := range sheet.Blocks {
		if b.ID != "" {
			links = append(links, page.Link{To: b.ID, Text: b.Heading})
		}
	}
	sheet.Blocks = append([]page.Block{{Links: links}}, sheet.Blocks...)
	return sheet
}

// summary is the plan at a glance.
func (w *Whole) summary() []page.Block {
	st, p := w.Plan.Of, w.Plan
	head := page.Block{Heading: "The plan", ID: "plan", Text: []string{oneLine(verdict(p))}}
	if text := standing(st); text != "" {
		head.Text = append(head.Text, oneLine(text))
	}
	if w.Since != nil && !w.Since.Early {
		shifts := plan.PlanChanges(w.Since.Lines, w.Since.Seq, p)
		for i := range shifts {
			head.List = append(head.List, shiftText(st, &shifts[i]))
		}
		if len(shifts) > 0 {
			head.Text = append(head.Text, fmt.Sprintf("Changed since %s:", w.Since.Called))
		}
	}
	g := page.NewGrid("slot", "what hangs there", "held in reserve", ">expected", ">if all goes well", ">breaks",
		"=grade")
	g.Caption = "All sums in " + st.Job.Currency
	for i := range p.Lines {
		l := &p.Lines[i]
		g.Row(st.Slots[l.Slot].Name, plan.Told(st, l.Choice), held(st, l), catalog.FormatMoney(l.Expected),
			catalog.FormatMoney(l.Choice.Cash), Percent(l.Choice.Breakage), gradeText(st, l.Choice.Grade))
	}
	for _, c := range p.Charges {
		g.Row("", chargeText(st, c), "", catalog.FormatMoney(c.Cents), catalog.FormatMoney(c.Cents), "", "")
	}
	g.Sum("in all", "", "", catalog.FormatMoney(p.Expected), catalog.FormatMoney(p.Outlay), "",
		fmt.Sprintf("%.1f on average", p.Grade))
	facts := &page.Card{Title: "Against what was asked for"}
	for _, row := range figureRows(p) {
		facts.Facts = append(facts.Facts, page.Fact{What: row[0], Is: row[1]})
	}
	return []page.Block{head, {Card: facts}, {Grid: g}}
}

// expenses are the words for what money is spent on.
var expenses = map[plan.ExpenseKind]string{
	plan.Plating: "plating", plan.OwnBench: "own bench", plan.Makers: "makers", plan.Purchases: "pieces bought",
	plan.Bundles: "bundles", plan.Freight: "freight", plan.LeastLots: "up to the least lots",
	plan.Foregone: "what used pieces would fetch", plan.Failures: "what failing costs on average",
	plan.TradeCredits: "credits of trades",
}

// money is where it goes.
func (w *Whole) money() page.Block {
	g := page.NewGrid("what", ">"+w.Plan.Of.Job.Currency)
	for _, e := range plan.Expenses(w.Plan) {
		g.Row(expenses[e.Kind], catalog.FormatMoney(e.Cents))
	}
	g.Sum("expected, in all", catalog.FormatMoney(w.Plan.Expected))
	return page.Block{Heading: "Where the money goes", ID: "money", Chart: moneyChart(w.Plan, width{}), Grid: g}
}

// twentyJobs pictures how the cost may turn out.
func (w *Whole) twentyJobs() page.Block {
	var sums []catalog.Cents
	for i := range 20 {
		sums = append(sums, w.Risk.Cash.Quantile((float64(i)+0.5)/20))
	}
	b := page.Block{Heading: "How it may turn out", ID: "risk", Chart: dotsChart(w.Plan, width{}, sums)}
	b.Text = []string{"Twenty jobs like this one, each a dot: pieces break, are sent back or don't come, " +
		"and what is held in reserve or a rescue takes their place."}
	g := page.NewGrid("", "")
	for _, row := range riskRows(w.Risk, w.Sim) {
		g.Row(row[0], row[1])
	}
	b.Grid = g
	b.List = slotRisks(w.Risk)
	if text := early(w.Risk, w.Sim); text != "" {
		b.Small = []string{oneLine(text)}
	}
	return b
}

// curve is cost against grade.
func (w *Whole) curve() page.Block {
	b := page.Block{Heading: "What more grade costs", ID: "frontier"}
	if w.Curve == nil || w.Curve.NoPlan != nil || len(w.Curve.Points) == 0 {
		b.Text = []string{"Not looked at."}
		return b
	}
	b.Chart = frontierChart(w.Plan, width{}, w.Curve)
	g := page.NewGrid(">mean", ">expected", ">more", ">if all goes well", "")
	for i := range w.Curve.Points {
		p := w.Curve.Points[i].Plan
		more := ""
		if i > 0 {
			more = catalog.FormatMoney(p.Expected - w.Curve.Points[i-1].Plan.Expected)
		}
		g.Row(fmt.Sprintf("%.1f", p.Grade), catalog.FormatMoney(p.Expected), more, catalog.FormatMoney(p.Outlay),
			pointMarks(w.Curve, i))
	}
	b.Grid, b.List = g, marks(w.Curve)
	if !w.Curve.Whole {
		b.Small = []string{"Stopped early: some points are missing or not proven."}
	}
	return b
}

// turns is what would change the decision, and what to find out first.
func (w *Whole) turns() []page.Block {
	st := w.Plan.Of
	b := page.Block{Heading: "What would change the decision", ID: "turns"}
	if len(w.Stops) > 0 {
		g := page.NewGrid("piece", "plater", ">as planned", ">stop price")
		g.Caption = "Price after stripping, for one piece"
		for i := range w.Stops {
			s := &w.Stops[i]
			g.Row(plan.OfSlot(st, s.Slot, s.Choice.Piece), st.Platers[s.Choice.Plater].Name,
				catalog.FormatMoney(s.Planned), stopAbove(s))
		}
		b.Grid = g
	} else if w.StopsWhole {
		b.Text = []string{"No price is open any more."}
	}
	if !w.StopsWhole {
		b.Small = []string{"Stopped early: not every piece was looked at."}
	}
	first := page.Block{Heading: "What to find out first", ID: "find-out"}
	if w.Unknown != nil {
		for i := range w.Unknown.All[:min(mostFindOuts, len(w.Unknown.All))] {
			o := &w.Unknown.All[i]
			first.List = append(first.List, findOut(st, o)+worthKnowing(o))
		}
		switch {
		case !w.Unknown.Whole:
			first.Small = []string{"Stopped early: not every open figure was looked at to the end."}
		case len(first.List) == 0:
			first.Text = []string{"Nothing is worth finding out before you begin: " +
				"every open figure may be off as far as they usually are, and the plan still stands."}
		}
	}
	return []page.Block{b, first}
}

func (w *Whole) hunts() []page.Block {
	sheet := w.huntCard()
	if sheet == nil {
		return nil
	}
	sheet.Blocks[0].Heading, sheet.Blocks[0].ID = "What to hunt for", "hunt"
	return sheet.Blocks
}

// restsOn names the lines that rest on starting values.
func (w *Whole) restsOn() page.Block {
	notes := newNotes()
	for i := range w.Plan.Lines {
		l := &w.Plan.Lines[i]
		notes.mark(w.Plan.Of, l.Choice)
		if l.Fallback != nil {
			notes.mark(w.Plan.Of, l.Fallback)
		}
	}
	b := page.Block{
		Heading: "What the figures rest on",
		ID:      "rests",
		Text: []string{"“The cheapest” means the cheapest on these figures. " +
			"Starting values are nobody's experience yet; what would replace them:"},
	}
	for _, n := range notes.list {
		b.List = append(b.List, fmt.Sprintf("%s %s (instead of %s)", n.remedy, join(n.called), few(n.rests)))
	}
	b.Small = planWarnings(w.Plan)
	return b
}
