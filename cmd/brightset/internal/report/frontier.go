package report

import (
	"encoding/csv"
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/solver"
)

// Frontier writes the curve of cost against grade, and what changes from point to
// point.
func Frontier(c *ask.Curve) string {
	job := &c.Of.Job
	var b strings.Builder
	b.WriteString(Paragraph("", "", fmt.Sprintf("%s: what more grade costs (all sums in %s)", job.Title, job.Currency)) +
		"\n")
	b.WriteString(Paragraph("", "", "The least the whole set costs for each weighted mean, whatever the budget; "+
		"the other rules of the job stay as they are."))
	t := NewTable(">mean", ">expected", ">more", ">outlay", "")
	for i := range c.Points {
		p := c.Points[i].Plan
		more := ""
		if i > 0 {
			more = catalog.FormatMoney(p.Expected - c.Points[i-1].Plan.Expected)
		}
		t.Row(fmt.Sprintf("%.1f", p.Grade), catalog.FormatMoney(p.Expected), more, catalog.FormatMoney(p.Outlay),
			pointMarks(c, i))
	}
	b.WriteString("\n" + t.String())
	if kept := keptWeighed(c.Of, frontierKept); kept != "" {
		b.WriteString("\n" + Paragraph("", "", kept))
	}
	if len(c.Marks) > 0 {
		b.WriteString("\n" + list("The named targets ask for floors as well; all they ask for costs:", marks(c)))
	}
	for i := range c.Points {
		if i > 0 {
			b.WriteString("\n" + list(fmt.Sprintf("From %.1f to %.1f:", c.Points[i-1].Plan.Grade, c.Points[i].Plan.Grade),
				DifferencesText(c.Points[i-1].Plan, c.Points[i].Plan)))
		}
	}
	if c.Whole {
		b.WriteString("\n" + Paragraph("", "", "Every point is proven: nothing on the same figures"+
			keptWeighed(c.Of, " that keeps as much of the object's own")+" reaches its mean for less."))
	} else if len(c.Gaps) > 0 {
		b.WriteString("\n" + list("Stopped early. Not everything is known, and points may be missing:", gaps(c)))
		b.WriteString(Paragraph("", "", "Elsewhere every point is proven, and none is missing."))
	} else {
		b.WriteString("\n" + Paragraph("", "", "Stopped early: every point is proven, but not what all named targets cost."))
	}
	return b.String()
}

// gaps says between which means what is not known, and what is known of it.
func gaps(c *ask.Curve) []string {
	var all []string
	for _, g := range c.Gaps {
		text := fmt.Sprintf("from mean %.1f to %.1f", float64(g.From)/100, float64(g.To)/100)
		if g.Known {
			text += ": a set there costs " + catalog.FormatMoney(g.Bound) + " at least"
		}
		all = append(all, text)
	}
	return all
}

// pointMarks says what lies at a point: the budget's end, the mean asked for, the
// means of named targets.
func pointMarks(c *ask.Curve, i int) string {
	var text []string
	p := &c.Points[i]
	if mean := c.Of.Job.Target.Mean; mean.Set && c.First(mean.V) == i {
		text = append(text, "asked for")
	}
	for k := range c.Of.Tables.Targets {
		if t := &c.Of.Tables.Targets[k]; t.Mean.Set && c.First(t.Mean.V) == i {
			text = append(text, fmt.Sprintf("mean of target %q", t.Name))
		}
	}
	if !p.Within {
		text = append(text, "over budget")
	}
	return strings.Join(text, ", ")
}

func marks(c *ask.Curve) []string {
	var all []string
	for _, m := range c.Marks {
		switch {
		case m.Plan.Has:
			all = append(all, fmt.Sprintf("target %q: %s, mean %.1f", m.Name, catalog.FormatMoney(m.Plan.Expected),
				m.Plan.Grade))
		case m.Plan.Status == solver.Infeasible:
			all = append(all, fmt.Sprintf("target %q: nothing meets it, whatever the budget", m.Name))
		default:
			all = append(all, fmt.Sprintf("target %q: not found in time", m.Name))
		}
	}
	return all
}

type curveDoc struct {
	Format   int        `json:"format"`
	Title    string     `json:"title"`
	Status   string     `json:"status"` // optimal: every point is proven; stopped
	Currency string     `json:"currency"`
	Points   []spotDoc  `json:"points"`
	Gaps     []gapDoc   `json:"gaps"` // where points may be missing or not be the cheapest
	Targets  []aimedDoc `json:"targets"`
	Names    namesDoc   `json:"names"` // by the ids, which all else goes by
}

type gapDoc struct {
	From  float64        `json:"from_mean"`
	To    float64        `json:"to_mean"`
	Bound *catalog.Cents `json:"at_least_cents"` // no set with a mean above from_mean costs less; null: not known
}

type spotDoc struct {
	Mean        float64         `json:"mean"`
	Expected    catalog.Cents   `json:"expected_cents"`
	Outlay      catalog.Cents   `json:"outlay_cents"`
	Keeps       catalog.Cents   `json:"keeps_cents"` // worth to the owner: no money
	More        catalog.Cents   `json:"more_cents"`  // than the point before
	Within      bool            `json:"within_budget"`
	Proven      bool            `json:"proven"`
	Differences []differenceDoc `json:"differences"` // from the point before
	Changed     []string        `json:"changed"`     // slots filled otherwise than at the point before
	Lines       []lineDoc       `json:"lines"`
}

type aimedDoc struct {
	Target   string         `json:"target"`
	Expected *catalog.Cents `json:"expected_cents"` // null: nothing meets it, or not found in time
	Mean     *float64       `json:"mean"`
}

// FrontierJSON writes the curve as one JSON document.
func FrontierJSON(c *ask.Curve) (string, error) {
	st := c.Of
	doc := curveDoc{
		Format:   Format,
		Title:    st.Job.Title,
		Status:   "optimal",
		Currency: st.Job.Currency,
		Points:   []spotDoc{},
		Gaps:     []gapDoc{},
		Targets:  []aimedDoc{},
		Names:    namesOf(st),
	}
	if !c.Whole {
		doc.Status = "stopped"
	}
	for i := range c.Points {
		p := &c.Points[i]
		d := spotDoc{Mean: finite(p.Plan.Grade), Expected: p.Plan.Expected, Outlay: p.Plan.Outlay, Keeps: p.Plan.Keeps,
			Within: p.Within,
			Proven: p.Plan.Status == solver.Optimal, Differences: []differenceDoc{}, Changed: []string{}, Lines: []lineDoc{}}
		if i > 0 {
			before := c.Points[i-1].Plan
			d.More, d.Differences = p.Plan.Expected-before.Expected, differenceDocs(before, p.Plan)
		}
		for _, k := range p.Changes {
			d.Changed = append(d.Changed, st.Slots[k.Slot].ID)
		}
		for k := range p.Plan.Lines {
			d.Lines = append(d.Lines, lineOf(st, &p.Plan.Lines[k]))
		}
		doc.Points = append(doc.Points, d)
	}
	for _, g := range c.Gaps {
		d := gapDoc{From: hundredths(g.From), To: hundredths(g.To)}
		if g.Known {
			d.Bound = &g.Bound
		}
		doc.Gaps = append(doc.Gaps, d)
	}
	for _, m := range c.Marks {
		d := aimedDoc{Target: m.Name}
		if m.Plan.Has {
			mean := finite(m.Plan.Grade)
			d.Expected, d.Mean = &m.Plan.Expected, &mean
		}
		doc.Targets = append(doc.Targets, d)
	}
	return toJSON(doc)
}

// FrontierCSV writes the points as a table for a spreadsheet.
func FrontierCSV(c *ask.Curve) (string, error) {
	var b strings.Builder
	w := csv.NewWriter(&b)
	rows := [][]string{{"mean", "expected", "outlay", "within_budget", "proven"}}
	for i := range c.Points {
		p := &c.Points[i]
		rows = append(rows, []string{fmt.Sprintf("%.4f", p.Plan.Grade), catalog.FormatMoney(p.Plan.Expected),
			catalog.FormatMoney(p.Plan.Outlay), fmt.Sprint(p.Within), fmt.Sprint(p.Plan.Status == solver.Optimal)})
	}
	err := w.WriteAll(rows)
	return b.String(), err
}
