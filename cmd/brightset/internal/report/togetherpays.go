package report

import (
	"fmt"
	"strconv"
	"strings"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// sharedTable lists what the lines call for, once for all jobs, and who pays how much.
func sharedTable(out *plan.Joint) string {
	if len(out.Charges) == 0 {
		return ""
	}
	t := NewTable("charge", ">each by itself", ">together", "split")
	single, sum := catalog.Cents(0), catalog.Cents(0)
	for _, c := range out.Charges {
		apart := c.Apart()
		var split []jobText
		for j := range c.Shares {
			if c.Single[j] > 0 {
				split = append(split, jobText{j, catalog.FormatMoney(c.Shares[j])})
			}
		}
		t.Row(jointChargeText(&c), catalog.FormatMoney(apart), catalog.FormatMoney(c.Cents),
			jobRuns(split, func(j int) string { return jobName(out, j) }))
		single += apart
		sum += c.Cents
	}
	t.Rule()
	t.Row("charges", catalog.FormatMoney(single), catalog.FormatMoney(sum), "")
	return "What the lines call for, once for all jobs:\n" + t.String()
}

func jointChargeText(c *plan.JointCharge) string {
	switch c.Kind {
	case plan.ChargeMinimum:
		return "up to the least lot of " + c.ID
	case plan.ChargeBundle:
		return plan.BundleText(c.Bundle, c.Cents)
	}
	return "freight of " + c.ID
}

// paysTable sets what each job pays against its plan alone. Rows and columns add up.
func paysTable(out *plan.Joint) string {
	evened, apart := false, out.Capped == plan.CapApart
	for j := range out.Jobs {
		evened = evened || out.Jobs[j].Evened != 0
	}
	heads := []string{"job", ">lines", ">charges"}
	if evened {
		heads = append(heads, ">evened")
	}
	heads = append(heads, ">pays", ">alone")
	if apart {
		heads = append(heads, ">apart")
	}
	t := NewTable(append(heads, ">saves")...)
	var sums [7]catalog.Cents
	row := func(name string, v [7]catalog.Cents, known bool) {
		cells := []string{name, catalog.FormatMoney(v[0]), catalog.FormatMoney(v[1])}
		if evened {
			cells = append(cells, catalog.FormatMoney(v[2]))
		}
		cells = append(cells, catalog.FormatMoney(v[3]))
		alone, saves := "not found", ""
		if known {
			alone, saves = catalog.FormatMoney(v[4]), catalog.FormatMoney(v[6])
		}
		cells = append(cells, alone)
		if apart {
			cells = append(cells, catalog.FormatMoney(v[5]))
			saves = catalog.FormatMoney(v[6])
		}
		t.Row(append(cells, saves)...)
	}
	all := true
	for j := range out.Jobs {
		job := &out.Jobs[j]
		v := [7]catalog.Cents{job.Lines, job.Shared, job.Evened, job.Pays, job.Alone.Expected, 0,
			job.Alone.Expected - job.Pays}
		if apart {
			v[5] = job.Apart.Expected
			v[6] = v[5] - job.Pays
		}
		row(strconv.Itoa(j+1), v, job.Alone.Has)
		all = all && job.Alone.Has
		for i := range v {
			sums[i] += v[i]
		}
	}
	t.Rule()
	row("all", sums, all)
	return "What each job pays, expected:\n" + t.String()
}

// rulesText says by what rule charges are split.
func rulesText(out *plan.Joint) string {
	text := "A freight and a bundle are split evenly among the jobs that call for them, " +
		"a least lot in proportion to what each would have to top up by itself."
	for j := range out.Jobs {
		if out.Jobs[j].Evened != 0 {
			text += " Where a job would so pay more than alone, " +
				"because it leaves the others something or takes what is cheaper for all, those that gain make that good, " +
				"in proportion to what they gain."
			break
		}
	}
	switch out.Capped {
	case plan.CapAlone:
		text += " No job pays more than its plan alone would cost."
	case plan.CapApart:
		text += " Alone the jobs would use the same pieces twice, " +
			"so they can't all have those plans (or none as cheap was found in time). " +
			"No job pays more than in the cheapest plans in which every piece is used once and no charge is shared: " +
			"these are apart, and what each saves is counted from them."
	case plan.CapNone:
		text += " What each would pay alone was not found in time, so nothing is evened out."
	}
	for j := range out.Jobs {
		if alone := out.Jobs[j].Alone; alone.Has && alone.Status != solver.Optimal {
			text += fmt.Sprintf(" The plan alone of %s is not proven: it may be up to %s above the cheapest.", jobName(out, j),
				catalog.FormatMoney(alone.Expected-alone.Bound))
		}
	}
	return Paragraph("", "", text)
}

// jobText is what is said of one job.
type jobText struct {
	job  int
	text string
}

// jobRuns lists what is said of jobs, three or more in a row with the same at once:
// "job 1 30.00, job 2 to job 9 each 20.00".
func jobRuns(list []jobText, name func(job int) string) string {
	var out []string
	for i := 0; i < len(list); {
		end := i + 1
		for end < len(list) && list[end].text == list[i].text && list[end].job == list[end-1].job+1 {
			end++
		}
		if end-i < 3 {
			end = i + 1
			out = append(out, name(list[i].job)+" "+list[i].text)
		} else {
			out = append(out, name(list[i].job)+" to "+name(list[end-1].job)+" each "+list[i].text)
		}
		i = end
	}
	return strings.Join(out, ", ")
}
