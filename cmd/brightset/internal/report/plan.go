package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// Plan writes a plan in words and tables: what hangs where, what it costs, and
// what has to be sent, bought and kept for it, and what stands beside it. The plan
// must have lines.
func Plan(p *plan.Plan, beside *Beside) string {
	first, rest := PlanByParts(p, beside.Since)
	return first + rest(beside)
}

// PlanByParts is Plan in two parts: what is decided and what it costs, which can be read as
// soon as it is proven; and the rest, for which what stands beside the plan has to be known.
func PlanByParts(p *plan.Plan, was *Since) (first string, rest func(*Beside) string) {
	notes := newNotes()
	return planItself(p, was, notes), func(beside *Beside) string { return planBeside(p, beside, notes) }
}

func planItself(p *plan.Plan, was *Since, notes *notes) string {
	var b strings.Builder
	b.WriteString(Paragraph("", "", p.Of.Job.Title+" (all sums in "+p.Of.Job.Currency+")"))
	for _, part := range []string{standing(p.Of), shiftsText(was, p)} {
		if part != "" {
			b.WriteString("\n" + part)
		}
	}
	b.WriteString("\n" + planTable(p, notes))
	b.WriteString("\n" + verdict(p) + "\n" + figures(p))
	return b.String()
}

func planBeside(p *plan.Plan, beside *Beside, notes *notes) string {
	var b strings.Builder
	for _, part := range []string{
		sharedSparesText(p, beside.HeldForOne), lots(p), stripText(p.Of, beside.Strip), bench(p), purchases(p), trades(p),
		reserve(p), leftovers(p),
		bindingsText(p.Of, beside.Bindings), notes.String(), list("Worth knowing:", planWarnings(p)), cautions(p),
		othersText(p, beside),
	} {
		if part != "" {
			b.WriteString("\n" + part)
		}
	}
	return b.String()
}

// planTable has a row per slot and a row per charge. The columns "expected" and
// "outlay" add up to the totals of the plan.
func planTable(p *plan.Plan, notes *notes) string {
	t := planHead()
	planLines(t, p, notes)
	t.Rule()
	for _, c := range p.Charges {
		t.Row(chargeText(p.Of, c), catalog.FormatMoney(c.Cents), catalog.FormatMoney(c.Cents))
	}
	if len(p.Charges) > 0 {
		t.Rule()
	}
	t.Row("total", catalog.FormatMoney(p.Expected), catalog.FormatMoney(p.Outlay), "", fmt.Sprintf("%.1f", p.Grade))
	return t.String()
}

// planHead begins a table of what hangs where.
func planHead() *Table { return NewTable("slot", ">expected", ">outlay", ">breaks", ">grade") }

// planLines adds a row per slot, below it what hangs there, and what happens if that fails.
func planLines(t *Table, p *plan.Plan, notes *notes) {
	for i := range p.Lines {
		l := &p.Lines[i]
		c := l.Choice
		t.Row(plan.SlotCalled(p.Of, l.Slot), catalog.FormatMoney(l.Expected), catalog.FormatMoney(c.Cash),
			Percent(c.Breakage), catalog.FormatCenti(c.Grade))
		text := plan.Told(p.Of, c)
		if mayCome := mayCome(c); mayCome != "" {
			text += ", " + mayCome
		}
		t.Span(4, text+notes.mark(p.Of, c))
		if text := second(p, l, notes); text != "" {
			t.Span(4, text)
		}
	}
}

// second says what happens if the choice of a line fails, "" if it can't.
func second(p *plan.Plan, l *plan.Line, notes *notes) string {
	var text []string
	switch f := l.Fallback; {
	case f != nil:
		text = append(text, "else "+plan.Told(p.Of, f)+notes.mark(p.Of, f))
		if mayCome := mayCome(f); mayCome != "" {
			text = append(text, mayCome)
		}
		if shared := sharedSecond(p, l); shared != "" {
			text = append(text, shared)
		}
	case l.Choice.Fails > 0:
		slot := p.SlotOf(l)
		text = append(text, "else a rescue, "+catalog.FormatMoney(slot.Rescue.V)+notes.markRescue(slot))
	}
	return strings.Join(text, ", ")
}

// mayCome says of a lead how likely it is to come, of a reproduction how likely it is not
// to fit, "" of a piece that is there and fits.
func mayCome(c *plan.Choice) string {
	var text []string
	if c.Chance < catalog.One {
		text = append(text, "may come ("+Percent(c.Chance)+")")
	}
	if c.Misfit > 0 {
		text = append(text, "may not fit ("+Percent(c.Misfit)+")")
	}
	if len(text) == 0 {
		return ""
	}
	return "which " + strings.Join(text, " and ")
}

// chargeText names a charge.
func chargeText(st *catalog.State, c plan.Charge) string {
	switch c.Kind {
	case plan.ChargeMinimum:
		return "up to the least lot of " + st.Platers[c.Of].Name
	case plan.ChargePlaterFreight:
		return "freight of " + st.Platers[c.Of].Name
	case plan.ChargeVendorFreight:
		return "freight of " + st.Vendors[c.Of].Name
	case plan.ChargeBundle:
		return plan.BundleText(&st.Bundles[c.Of], c.Cents)
	}
	return "credit of trade " + st.Trades[c.Of].ID
}

// verdict says what is known of the plan's being the cheapest, or the best.
func verdict(p *plan.Plan) string {
	switch {
	case p.Best && p.Status == solver.Optimal:
		return Paragraph("", "", "The best finish that budget and rules allow on these figures: "+
			"proven, and nothing cheaper has it.")
	case p.Best:
		return Paragraph("", "", fmt.Sprintf("Not proven to be the best finish: stopped early (%s). "+
			"Give it longer with --time-limit.", p.Stop))
	}
	if keepsAny(p.Of) {
		return keptVerdict(p)
	}
	if p.Status == solver.Optimal {
		return Paragraph("", "", "The cheapest on these figures: proven, nothing that meets the target costs less.")
	}
	if p.Stop == solver.CloseEnough {
		return Paragraph("", "", "Nothing that meets the target costs less than "+catalog.FormatMoney(p.Bound)+". "+
			closeEnough(p.Expected-p.Bound))
	}
	return Paragraph("", "", fmt.Sprintf(
		"Not proven to be the cheapest: stopped early (%s). Nothing that meets the target costs less than %s; "+
			"this plan is at most %s above that.",
		p.Stop, catalog.FormatMoney(p.Bound), catalog.FormatMoney(p.Expected-p.Bound)))
}

// closeEnough says of a plan that was looked for within a share of the cheapest how far it can
// be above it.
func closeEnough(above catalog.Cents) string {
	return fmt.Sprintf("This plan is proven to be at most %s above the cheapest. For the whole proof type it with "+
		"--within 0.", catalog.FormatMoney(above))
}

// figures sets the sums of the plan against what was asked for.
func figures(p *plan.Plan) string {
	var b strings.Builder
	for _, r := range figureRows(p) {
		b.WriteString(Paragraph(fmt.Sprintf("  %-10s", r[0]), strings.Repeat(" ", 12), r[1]))
	}
	return b.String()
}

func figureRows(p *plan.Plan) [][2]string {
	job := &p.Of.Job
	rows := [][2]string{
		{"expected", catalog.FormatMoney(p.Expected) + ", with what breaking, sending back and not coming cost on average"},
		{"outlay", catalog.FormatMoney(p.Outlay) + ", if all goes well"},
	}
	if job.SpentSum != 0 {
		rows[0][1] += fmt.Sprintf("; with the %s spent %s", catalog.FormatMoney(job.SpentSum),
			catalog.FormatMoney(p.Expected+job.SpentSum))
		rows[1][1] += fmt.Sprintf("; with what is spent %s", catalog.FormatMoney(p.Outlay+job.SpentSum))
	}
	if pays := p.ForOwner().Total; job.BudgetOn == catalog.OnQuote {
		rows = append(rows, [2]string{"owner", "pays " + catalog.FormatMoney(pays) + ", markups, labour and tax included"})
	} else if over := pays - job.Budget.V - job.SpentSum; p.Of.Quote.Given && job.Budget.Set && over > 0 {
		rows = append(rows, [2]string{"owner", fmt.Sprintf("pays %s, %s above the budget, which is on %s",
			catalog.FormatMoney(pays), catalog.FormatMoney(over), job.BudgetOn)})
	}
	if job.Budget.Set {
		which := map[catalog.BudgetOn]int{catalog.OnOutlay: 1, catalog.OnQuote: 2}[job.BudgetOn]
		rows[which][1] += fmt.Sprintf("; budget %s, %s left", catalog.FormatMoney(job.Budget.V+job.SpentSum),
			catalog.FormatMoney(p.BudgetLeft()))
	}
	grade := fmt.Sprintf("%.1f on average", p.Grade)
	if job.Target.Mean.Set {
		grade += ", " + catalog.FormatCenti(job.Target.Mean.V) + " asked for"
	}
	if job.Target.Name != "" {
		grade += fmt.Sprintf(" (target %q)", job.Target.Name)
	}
	done := fmt.Sprintf("%s that no slot needs a rescue", Percent(catalog.Micro(p.Completion*1e6)))
	if job.Completion.Set {
		done += ", " + Percent(job.Completion.V) + " asked for"
	}
	if kept := keptRow(p); kept != "" {
		rows = append(rows, [2]string{"kept", kept})
	}
	return append(rows, [2]string{"grade", grade}, [2]string{"chance", done}, [2]string{"days", days(p)})
}

// days says when the set is complete if all goes well, and at the latest.
func days(p *plan.Plan) string {
	well := choice.DayDone(p.Of, p)
	text := fmt.Sprintf("%d if all goes well", well)
	if p.Of.Job.Start.Set {
		text += ", " + p.Of.Job.Start.V.AddDate(0, 0, well).Format("2006-01-02")
	}
	text += fmt.Sprintf("; %d with every fallback or rescue", choice.LastDay(p.Of, p))
	if p.Of.Job.WithinDays.Set {
		text += fmt.Sprintf("; %d allowed", p.Of.Job.WithinDays.V)
	}
	return text
}
