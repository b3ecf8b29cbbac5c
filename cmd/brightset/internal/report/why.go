package report

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// mostCauses is how many parts of a difference are told, the biggest first.
const mostCauses = 3

// Why writes every choice for a slot with what the whole set comes to with it,
// where the difference comes from, and where the decision turns.
func Why(w *ask.Why) string {
	st := w.Advised.Of
	slot := &st.Slots[w.Slot]
	var b strings.Builder
	b.WriteString(Paragraph("", "", fmt.Sprintf("%s: why %s (all sums in %s)", st.Job.Title, slot.Name, st.Job.Currency)))
	b.WriteString("\n" + whyTable(w))
	var shut, open []string
	for i := range w.Alternatives {
		switch way := &w.Alternatives[i]; {
		case way.Plan.Has:
		case way.Proven():
			shut = append(shut, plan.Told(st, way.Choice))
		default:
			open = append(open, plan.Told(st, way.Choice)+": "+leastMore(w.Advised, way.Least))
		}
	}
	for _, part := range []string{
		keepingCosts(w),
		closeCalls(w),
		list("The demands that have a say here, and what each costs by itself:", rulePrices(w)),
		list("Where the decision turns, all else staying as it is:", points(w)),
		list("Not asked to the end, and no set with it found; the cheapest is:", open),
		list("Good enough by itself, but no set with it meets all demands:", shut),
		list("Out:", whyOuts(w)),
	} {
		if part != "" {
			b.WriteString("\n" + part)
		}
	}
	if w.Stopped {
		b.WriteString("\n" + Paragraph("", "", "Stopped early: not every sum is proven to be the least, "+
			"and not every turn was looked for. With more time: brightset why "+slot.ID+" --time-limit 5m"))
	}
	return b.String()
}

func whyTable(w *ask.Why) string {
	t := NewTable("choice", ">the whole set", ">more", ">grade", ">mean")
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		if !way.Plan.Has {
			continue
		}
		more := "advised"
		if !w.Taken(way) {
			more = catalog.FormatMoney(way.More)
		}
		t.Row(plan.Told(w.Advised.Of, way.Choice), catalog.FormatMoney(way.Plan.Expected), more,
			catalog.FormatCenti(way.Choice.Grade), fmt.Sprintf("%.1f", way.Plan.Grade))
		parts := []string{causes(w.Advised, way.Reasons), keepsMore(way.Keeps)}
		if !way.Proven() {
			parts = append(parts, "not proven to be the least, which is "+leastMore(w.Advised, way.Least))
		}
		text := strings.Join(slices.DeleteFunc(parts, empty), "; ")
		if text != "" {
			t.Span(4, text)
		}
	}
	return t.String()
}

// leastMore says that the cheapest set with something comes to so much more than a plan at least.
func leastMore(p *plan.Plan, v catalog.Cents) string {
	text := catalog.FormatMoney(v) + " more at least"
	switch {
	case v < 0:
		text = catalog.FormatMoney(-v) + " less at most"
	case v == 0:
		text = "as much as planned or more"
	}
	if keepsAny(p.Of) {
		text += ", cost and keeping weighed"
	}
	return text
}

// causes tells the biggest parts of a difference.
func causes(p *plan.Plan, all []plan.Cause) string {
	var text []string
	for i := range all[:min(len(all), mostCauses)] {
		text = append(text, cause(p, &all[i]))
	}
	if rest := all[min(len(all), mostCauses):]; len(rest) > 0 {
		sum := catalog.Cents(0)
		for i := range rest {
			sum += rest[i].Cents
		}
		text = append(text, "the rest "+moreOrLess(sum))
	}
	return strings.Join(text, "; ")
}

func cause(p *plan.Plan, c *plan.Cause) string {
	sum := moreOrLess(c.Cents)
	switch c.Kind {
	case plan.CausePrice:
		return "the piece " + sum
	case plan.CauseWork:
		return "the work " + sum
	case plan.CauseRisk:
		return "what failing costs " + sum
	case plan.CauseCharge:
		return chargeText(p.Of, c.Charge) + " " + sum
	}
	text := p.Of.Slots[c.Slot].Name + " is then " + briefly(p.Of, c.Now.Choice)
	if f := c.Now.Fallback; f != nil {
		text += ", else " + briefly(p.Of, f)
	}
	return text + ": " + sum
}

// moreOrLess says a difference without a sign.
func moreOrLess(v catalog.Cents) string {
	if v < 0 {
		return catalog.FormatMoney(-v) + " less"
	}
	return catalog.FormatMoney(v) + " more"
}

// closeCalls says which choices are level with the advised one, and which within
// the error of the estimates.
func closeCalls(w *ask.Why) string {
	var level, near []string
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		switch {
		case !way.Plan.Has || w.Taken(way):
		case way.More == way.Keeps:
			level = append(level, plan.Told(w.Advised.Of, way.Choice))
		case way.Slack:
			near = append(near, plan.Told(w.Advised.Of, way.Choice))
		}
	}
	text := ""
	if len(level) > 0 && keepsAny(w.Advised.Of) {
		text += Paragraph("", "  ", "Level to the cent, cost and keeping weighed: "+
			strings.Join(level, ", ")+". Take which you like.")
	} else if len(level) > 0 {
		text += Paragraph("", "  ", "The same total to the cent: "+strings.Join(level, ", ")+". Take which you like.")
	}
	if len(near) > 0 {
		text += Paragraph("", "  ", "As good as level, the difference is within the error of the estimates: "+
			strings.Join(near, ", ")+".")
	}
	return text
}

// mostRules is how many demands are told, the dearest first.
const mostRules = 3

// rulePrices tells the demands that bind, and what they keep out of the slot.
func rulePrices(w *ask.Why) []string {
	var all []string
	for i := range w.Rules[:min(mostRules, len(w.Rules))] {
		r := &w.Rules[i]
		text := fmt.Sprintf("%s: %s", r.Requirement.Words, bracket(r.Costs, r.Most))
		if kept := keepsMore(-r.Keeps); kept != "" {
			text += "; it " + kept
		}
		if r.Instead != nil {
			text += "; without it " + plan.Told(w.Advised.Of, r.Instead)
		}
		all = append(all, text)
	}
	return all
}

// whyOuts says piece by piece what is kept out of the slot, and why.
func whyOuts(w *ask.Why) []string {
	st := w.Advised.Of
	var all []string
	done := map[int]bool{}
	for i := range w.Outs {
		if piece := w.Outs[i].Piece; !done[piece] {
			done[piece] = true
			all = append(all, plan.PieceCalled(st, piece)+" - "+strings.Join(cant(st, piece, w.Outs), "; "))
		}
	}
	return all
}

func empty(s string) bool { return s == "" }
