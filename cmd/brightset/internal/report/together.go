package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/joint"
	"brightset/model/plan"
	"brightset/solver"
)

// Together writes what several jobs planned together come to: each job's lines, what they
// share and how that is split, and what each pays and saves.
func Together(out *plan.Joint, worths []joint.Worth) string {
	var b strings.Builder
	notes := newNotes()
	b.WriteString(Paragraph("", "", fmt.Sprintf("%d jobs of one shop, planned together (all sums in %s)", len(out.Jobs),
		out.Jobs[0].State.Job.Currency)))
	for j := range out.Jobs {
		b.WriteString("\n" + jobPart(out, j, notes))
	}
	for _, part := range []string{
		sharedTable(out), paysTable(out), jointVerdict(out), rulesText(out), worthsText(out, worths), notes.String(),
		list("Worth knowing:", jointWarnings(out)), jointCautions(out),
	} {
		if part != "" {
			b.WriteString("\n" + part)
		}
	}
	return b.String()
}

func jobName(out *plan.Joint, j int) string { return fmt.Sprintf("job %d", j+1) }

// jobPart is one job's lines. Its charges stand with those of the others.
func jobPart(out *plan.Joint, j int, notes *notes) string {
	job := &out.Jobs[j]
	t := planHead()
	planLines(t, job.Plan, notes)
	t.Rule()
	for _, c := range job.Plan.Charges {
		if c.Kind == plan.ChargeTrade {
			t.Row(chargeText(job.State, c), catalog.FormatMoney(c.Cents), catalog.FormatMoney(c.Cents))
		}
	}
	t.Row("lines", catalog.FormatMoney(job.Lines), catalog.FormatMoney(job.OwnOutlay()), "",
		fmt.Sprintf("%.1f", job.Plan.Grade))
	text := Paragraph("", "  ", fmt.Sprintf("Job %d: %s (%s)", j+1, job.State.Job.Title, job.State.Job.File)) + t.String()
	text += fmt.Sprintf("chance %s that no slot needs a rescue; days %s\n",
		Percent(catalog.Micro(job.Plan.Completion*1e6)), days(job.Plan))
	return wrapLast(text)
}

// wrapLast lays the last line out as a paragraph.
func wrapLast(text string) string {
	text = strings.TrimSuffix(text, "\n")
	at := strings.LastIndex(text, "\n") + 1
	return text[:at] + Paragraph("", "  ", text[at:])
}

// jointVerdict says what is known of the plan's being the cheapest.
func jointVerdict(out *plan.Joint) string {
	switch {
	case out.Status == solver.Optimal:
		return Paragraph("", "", "The cheapest on these figures for all jobs together: "+
			"proven, nothing that meets all targets costs less.")
	case out.Stop == solver.CloseEnough:
		return Paragraph("", "", "Nothing that meets all targets costs less than "+catalog.FormatMoney(out.Bound)+". "+
			closeEnough(out.Expected-out.Bound))
	}
	return Paragraph("", "", fmt.Sprintf("Not proven to be the cheapest: stopped early (%s). "+
		"Nothing that meets all targets costs less than %s; this plan is at most %s above that. "+
		"Give it longer with --time-limit.",
		out.Stop, catalog.FormatMoney(out.Bound), catalog.FormatMoney(out.Expected-out.Bound)))
}

// worthsText says where the pieces go that more than one job wants.
func worthsText(out *plan.Joint, worths []joint.Worth) string {
	name := func(j int) string { return jobName(out, j) }
	var all []string
	for _, w := range worths {
		var to []string
		var worth []jobText
		for _, u := range w.To {
			use := fmt.Sprintf("%s (%s)", jobName(out, u.Job), out.Jobs[u.Job].State.Slots[u.Slot].Name)
			if u.Reserve {
				use += " in reserve"
			}
			to = append(to, use)
		}
		for _, one := range w.Jobs {
			switch {
			case !one.Looked:
				worth = append(worth, jobText{one.Job, "not looked for"})
			case one.Vital:
				worth = append(worth, jobText{one.Job, "can't do without"})
			default:
				worth = append(worth, jobText{one.Job, catalog.FormatMoney(one.Cents)})
			}
		}
		text := w.ID + " goes to " + strings.Join(to, " and ")
		if len(to) == 0 {
			text = w.ID + " stays in the drawer"
		}
		all = append(all, text+"; worth to each alone: "+jobRuns(worth, name))
	}
	return list("Wanted by more than one job:", all)
}

// jointWarnings are what waits for whom, the jobs' own, and budgets that evening out goes
// beyond.
func jointWarnings(out *plan.Joint) []string {
	all := append(startWarnings(out), bundleWarnings(out)...)
	for j := range out.Jobs {
		job := &out.Jobs[j]
		for _, w := range planWarnings(job.Plan) {
			all = append(all, jobName(out, j)+": "+w)
		}
		if over := job.OverBudget(); over > 0 {
			all = append(all, fmt.Sprintf("%s: what evens things out is not part of its budget, "+
				"which it could exceed by up to %s", jobName(out, j), catalog.FormatMoney(over)))
		}
	}
	return all
}

// jointCautions gives the cautions of the first job that has any.
func jointCautions(out *plan.Joint) string {
	whole := &plan.Plan{}
	for j := range out.Jobs {
		whole.Lines = append(whole.Lines, out.Jobs[j].Plan.Lines...)
	}
	return cautions(whole)
}

// NoneTogether says that there is no plan of all jobs, and what is known of why.
func NoneTogether(out *plan.Joint, short []string, whole bool) string {
	var alone []string
	for j := range out.Jobs {
		if out.Jobs[j].Alone.Status == solver.Infeasible {
			alone = append(alone, out.Jobs[j].State.Job.File)
		}
	}
	switch {
	case len(alone) > 0:
		return Paragraph("", "", "Nothing meets all targets: "+strings.Join(alone, ", ")+
			" can't be done within its limits even with the whole stock to itself.")
	case len(short) > 0:
		return Paragraph("", "", "Each job can be done by itself, but not all together: "+
			"they need the same pieces of the shop's. More of any one of these would be enough: "+strings.Join(short, ", ")+"."+
			cut(whole))
	case !whole:
		return Paragraph("", "", "Each job can be done by itself, but not all together: "+
			"they need the same pieces of the shop's. "+
			"Stopped early: not every piece was looked at for whether more of it alone would be enough.")
	}
	return Paragraph("", "", "Each job can be done by itself, but not all together: "+
		"they need the same pieces of the shop's, and more of a single one is not enough.")
}

// cut says that a list is not of all.
func cut(whole bool) string {
	if whole {
		return ""
	}
	return " Stopped early: not every piece was looked at."
}
