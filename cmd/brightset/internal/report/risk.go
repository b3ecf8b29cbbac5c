package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/risk"
)

// mostSlots is how many slots are told as the ones the bad cases come from.
const mostSlots = 5

// Risk writes how a plan may turn out, in plain words; with detail, the figures and
// how they are come by.
func Risk(r *risk.Risk, s *risk.Simulation, f *Unknown, detail bool) string {
	st := r.Plan.Of
	var b strings.Builder
	b.WriteString(Paragraph("", "", fmt.Sprintf("%s: how it may turn out (all sums in %s)", st.Job.Title,
		st.Job.Currency)) + "\n")
	b.WriteString(Paragraph("", "", riskIntro(r)))
	b.WriteString("\n" + twenty(r) + "\n")
	for _, row := range riskRows(r, s) {
		b.WriteString(Paragraph(fmt.Sprintf("  %-12s", row[0]), strings.Repeat(" ", 14), row[1]))
	}
	for _, part := range []string{
		cutShort(early(r, s)),
		list(badCases+":", slotRisks(r)),
		list(lotsLost+":", lotRisks(r)),
		findOuts(st, f),
	} {
		if part != "" {
			b.WriteString("\n" + part)
		}
	}
	if detail {
		b.WriteString("\n" + riskDetail(r, s))
	}
	more := ""
	if !detail {
		more = "The figures and how they are come by: brightset risk --detail. "
	}
	if f == nil {
		more += "What is worth finding out first: brightset risk --find-out"
	}
	if more != "" {
		b.WriteString("\n" + Paragraph("", "", more))
	}
	return b.String()
}

// What the answer and the page of it say alike.
const (
	badCases = "Where the bad cases come from"
	lotsLost = "If a plater loses all he has of yours"
)

// riskIntro says what may go otherwise than planned.
func riskIntro(r *risk.Risk) string {
	return fmt.Sprintf("The plan spends %s if all goes well. Pieces break, are sent back after stripping, or don't come; "+
		"what is held in reserve, or a rescue, then fills the slot.", catalog.FormatMoney(r.Plan.Outlay)) +
		spentAlready(r.Plan.Of)
}

// spentAlready says what the sums of an answer come on top of; "" where nothing is spent.
func spentAlready(st *catalog.State) string {
	if st.Job.SpentSum == 0 {
		return ""
	}
	return fmt.Sprintf(" All sums but the budget are what is still to come; %s is spent already.",
		catalog.FormatMoney(st.Job.SpentSum))
}

// twenty pictures twenty jobs like this one.
func twenty(r *risk.Risk) string {
	text := Paragraph("", "", "Of twenty jobs like this one:")
	for _, g := range alike(r) {
		text += fmt.Sprintf("  %-20s up to %12s  %d\n", strings.Repeat("o", g.jobs), catalog.FormatMoney(g.upTo), g.jobs)
	}
	return text
}

// alikeJobs are some of twenty jobs like a plan's, which spend about the same.
type alikeJobs struct {
	jobs int
	upTo catalog.Cents
}

// alike is twenty jobs like a plan's, the cheapest first.
func alike(r *risk.Risk) (all []alikeJobs) {
	const jobs = 20
	var sums []catalog.Cents
	for i := range jobs {
		sums = append(sums, r.Cash.Quantile((float64(i)+0.5)/jobs))
	}
	step := nice((sums[jobs-1] - sums[0]) / 6)
	for i := 0; i < jobs; {
		upTo := (sums[i] + step - 1) / step * step
		n := 0
		for i+n < jobs && sums[i+n] <= upTo {
			n++
		}
		all = append(all, alikeJobs{n, upTo})
		i += n
	}
	return all
}

// nice is the next round step at or above v: 10, 20, 50, 100 ... units.
func nice(v catalog.Cents) catalog.Cents {
	for step := catalog.Cents(10_00); ; step *= 10 {
		for _, n := range []catalog.Cents{1, 2, 5} {
			if n*step >= v {
				return n * step
			}
		}
	}
}

func riskRows(r *risk.Risk, s *risk.Simulation) [][2]string {
	st := r.Plan.Of
	half, most := r.Cash.Quantile(0.5), r.Cash.Quantile(0.9)
	contingency := fmt.Sprintf("%s above the planned outlay covers nine in ten",
		catalog.FormatMoney(max(0, most-r.Plan.Outlay)))
	if s.Runs > 0 {
		contingency += fmt.Sprintf("; with estimates that are off as well, %s",
			catalog.FormatMoney(max(0, risk.Quantile(s.Cash, 0.9)-r.Plan.Outlay)))
	}
	rows := [][2]string{
		{"half", fmt.Sprintf("of such jobs spend %s or less, nine in ten %s or less", catalog.FormatMoney(half),
			catalog.FormatMoney(most))},
		{"contingency", contingency},
	}
	if st.Job.Budget.Set {
		rows = append(rows, [2]string{"budget",
			fmt.Sprintf("%s that %s is enough", chanceBetween(r.Budget), catalog.FormatMoney(st.Job.Budget.V+st.Job.SpentSum))})
	}
	date := fmt.Sprintf("half hang by day %d, nine in ten by day %d", r.Days(0.5), r.Days(0.9))
	if st.Job.WithinDays.Set {
		date += fmt.Sprintf("; %s that it is within %d days", Chance(r.InTime), st.Job.WithinDays.V)
	}
	rows = append(rows, [2]string{"date", date})
	grade := fmt.Sprintf("the mean is %.1f or better in half of such jobs, %.1f or better in nine of ten", r.Grade(0.5),
		r.Grade(0.9))
	if st.Job.Target.Mean.Set {
		grade += fmt.Sprintf("; %s that it is %s or better, as asked for", chanceBetween(r.Mean),
			catalog.FormatCenti(st.Job.Target.Mean.V))
	}
	rows = append(rows, [2]string{"grade", grade})
	if off := offBy(r); off != "" {
		rows = append(rows, [2]string{"off by", off})
	}
	rows = append(rows, [2]string{"rescue", fmt.Sprintf("%s that some slot needs a rescue", Chance(r.Rescues))})
	if spared := mean(s.Cash) - mean(s.Replan); s.Runs > 0 && spared > 0 {
		rows = append(rows, [2]string{"spares",
			fmt.Sprintf("holding each for one slot only costs about %s on average: decide again after each failure, "+
				"with whatever is left", catalog.FormatMoney(spared))})
	}
	return rows
}

// cutShort is a paragraph; "" of nothing.
func cutShort(text string) string {
	if text == "" {
		return ""
	}
	return Paragraph("", "", text)
}

// early says what of it was cut short; "" where nothing was.
func early(r *risk.Risk, s *risk.Simulation) string {
	text := ""
	if r.Coarse {
		text = "the sums and chances above are told by coarse steps; "
	}
	switch {
	case s.Whole():
	case s.Runs == 0:
		text += "what estimates that are off would do was not looked at; "
	default:
		text += fmt.Sprintf("what estimates that are off would do is out of %d runs instead of %d; ", s.Runs, s.Asked)
	}
	if text == "" {
		return ""
	}
	return "Stopped early: " + text + "give it longer for the whole answer."
}

func mean(runs []catalog.Cents) catalog.Cents {
	sum := catalog.Cents(0)
	for _, v := range runs {
		sum += v
	}
	return sum / catalog.Cents(max(1, len(runs)))
}

func slotRisks(r *risk.Risk) []string {
	var all []string
	for i := range r.Slots[:min(mostSlots, len(r.Slots))] {
		s := &r.Slots[i]
		if s.Share < 0.005 {
			break
		}
		all = append(all, fmt.Sprintf("%s: fails in %s of jobs, and then costs up to %s more; %.0f%% of the uncertainty",
			r.Plan.Of.Slots[s.Slot].Name, Chance(s.Fails), catalog.FormatMoney(s.Worst), 100*s.Share))
	}
	return all
}

func lotRisks(r *risk.Risk) []string {
	var all []string
	for i := range r.Lots {
		l := &r.Lots[i]
		text := fmt.Sprintf("%s: %s to fill again, about %s more", r.Plan.Of.Platers[l.Plater].Name, count(l.Slots, "slot"),
			catalog.FormatMoney(l.More))
		if l.Bare > 0 {
			text += fmt.Sprintf("; %d of them with nothing in reserve", l.Bare)
		}
		all = append(all, text)
	}
	return all
}
