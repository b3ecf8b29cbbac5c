package report

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// Infeasible says that nothing meets the target within the limits: what clashes,
// what could be given up and what that would lead to, and for slots that nothing can
// fill why everything is out.
func Infeasible(p *plan.Plan, c *ask.Explanation) string {
	text := Paragraph("", "", p.Of.Job.Title) + "\n" +
		Paragraph("", "", "Nothing meets the target within the limits: proven.")
	if c.NobodyPlates(p.Of) {
		why := "Nobody plates: neither the job's file nor the shop's names a plater. To add one: brightset record plater " +
			"NAME, see brightset help record."
		if len(p.Of.Platers) > 0 {
			why = "Nobody plates: what a plater asks is known of none. To say it, for a level of his: brightset record " +
				"plater NAME --level LEVEL --metal METAL --rate SUM --grade GRADE; for one piece: brightset record quoted."
		}
		text += "\n" + Paragraph("", "  ", why)
	}
	text += takersText(p, c)
	if len(c.Conflict) > 0 {
		text += "\n" + clash(c)
	}
	if c.Bare != nil {
		text += "\n" + Paragraph("", "",
			fmt.Sprintf("Giving up one of them is not enough. Without any of them the cheapest set costs %s, "+
				"grade %.1f on average.", catalog.FormatMoney(c.Bare.Expected), c.Bare.Grade))
	}
	if ups := giveUps(p.Of, c); len(ups) > 0 {
		text += "\n" + list("Any one of these would do, all else kept (sums in "+p.Of.Job.Currency+"):", ups)
	}
	if few := notEnough(c); len(few) > 0 {
		text += "\n" + list("Not enough by itself, since something else clashes with what is left:", few)
	}
	if best := nearest(c); best != nil {
		t := NewTable("slot", "the nearest set", ">expected", ">grade")
		for i := range best.Plan.Lines {
			l := &best.Plan.Lines[i]
			t.Row(p.SlotOf(l).Name, plan.Told(p.Of, l.Choice),
				catalog.FormatMoney(l.Expected), catalog.FormatCenti(l.Choice.Grade))
		}
		text += "\n" + Paragraph("", "", "The cheapest of them with the pieces there are leads to this set:") + t.String()
	}
	if reasons := otherReasons(p, c); len(reasons) > 0 {
		text += "\n" + list("These slots nothing can fill:", reasons) +
			Paragraph("", "", "What else is out, and why, shows: brightset check --slot SLOT")
	}
	if c.Stopped {
		text += "\n" + Paragraph("", "", "Stopped early: not everything was looked at.")
	}
	return text
}

// takersText names the works that somebody has to be found for first.
func takersText(p *plan.Plan, c *ask.Explanation) string {
	if len(c.Takers) == 0 {
		return ""
	}
	st, text := p.Of, "\n"
	for _, t := range c.Takers {
		text += Paragraph("", "  ",
			fmt.Sprintf("Nobody does %q, and without it nothing fills %s: add a maker or ask a plater. "+
				"Waiting for it: %s.", st.Tables.Works[t.Work].Name, plan.SlotNames(st, t.Slots), plan.PiecesCalled(st, t.Pieces)))
	}
	switch {
	case c.WithTakers != nil && c.WithTakers.Has:
		text += Paragraph("", "",
			fmt.Sprintf("With somebody for it, at the shop's own rate, the set would cost %s, grade %.1f on "+
				"average.", catalog.FormatMoney(c.WithTakers.Expected), c.WithTakers.Grade))
	case len(c.Conflict) > 0:
		text += "\n" + Paragraph("", "", "Even with somebody for it:")
	}
	return text
}

// otherReasons are why slots can't be filled that wait for no work.
func otherReasons(p *plan.Plan, c *ask.Explanation) []string {
	var all []string
	for i, why := range p.Reasons {
		waits := func(t ask.Taker) bool { return i < len(p.Unfilled) && slices.Contains(t.Slots, p.Unfilled[i].Slot) }
		if !slices.ContainsFunc(c.Takers, waits) {
			all = append(all, why)
		}
	}
	return all
}

// clash tells the requirements that can't all be kept.
func clash(c *ask.Explanation) string {
	text := oneClash(c.Conflict, c.Minimal)
	for _, more := range c.More {
		text += "\n" + oneClash(more.Requirements, more.Minimal)
	}
	return text
}

// mostWords is as many requirements as are told of a clash that may be smaller.
const mostWords = 12

func oneClash(all []ask.Requirement, minimal bool) string {
	var words []string
	for _, r := range all {
		words = append(words, r.Words)
	}
	switch {
	case !minimal && len(words) > mostWords:
		rest := fmt.Sprintf("and %d more", len(words)-mostWords)
		return list("These can't all be kept; there may be fewer that clash:", append(words[:mostWords:mostWords], rest))
	case !minimal:
		return list("These can't all be kept; there may be fewer that clash:", words)
	case len(words) == 1:
		return list("This can't be met, whatever else is given up:", words)
	}
	return list("These can't all be kept; without any one of them the others can:", words)
}

// giveUps tells the smallest steps back, and the total that follows.
func giveUps(st *catalog.State, c *ask.Explanation) []string {
	var all []string
	for i := range c.Relaxations {
		if g := &c.Relaxations[i]; g.Plan != nil && g.Plan.Has {
			all = append(all, StepText(g))
		}
	}
	return all
}

// StepText is a step back with what the set then comes to.
func StepText(g *ask.Relaxation) string {
	return fmt.Sprintf("%s: the set then costs %s, grade %.1f on average", g.Words, catalog.FormatMoney(g.Plan.Expected),
		g.Plan.Grade)
}

// notEnough names the members of the clash whose giving up leaves nothing that fits.
func notEnough(c *ask.Explanation) []string {
	var all []string
	for i := range c.Relaxations {
		if g := &c.Relaxations[i]; g.Plan == nil || !g.Plan.Has {
			all = append(all, g.Requirement.Words)
		}
	}
	return all
}

// nearest is the cheapest step back that takes no piece nobody has; nil if none is
// enough.
func nearest(c *ask.Explanation) *ask.Relaxation {
	for i := range c.Relaxations {
		if g := &c.Relaxations[i]; g.Plan != nil && g.Plan.Has && g.Requirement.Kind != "piece" {
			return g
		}
	}
	return nil
}
