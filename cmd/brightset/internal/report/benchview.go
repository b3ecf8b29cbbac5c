package report

import (
	"fmt"
	"html/template"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/risk"
)

// The bench page shows the same facts in the same words as the other answers: what it
// shows is put together here, and only how it looks is the page's.

// SlotAsks says what a slot asks for, on one line.
func SlotAsks(st *catalog.State, slot int) string { return oneLine(slotText(st, slot)) }

// PlanRows are the sums of a plan against what was asked for.
func PlanRows(p *plan.Plan) [][2]string { return figureRows(p) }

// Verdict says what is known of a plan's being the cheapest.
func Verdict(p *plan.Plan) string { return oneLine(verdict(p)) }

// Standing says where the job is; "" where nothing was recorded.
func Standing(st *catalog.State) string { return oneLine(standing(st)) }

// Changes are the slots that another plan fills otherwise, in words.
func Changes(was, now *plan.Plan) []string { return DifferencesText(was, now) }

// ChangeLine is the difference of two plans in one line: "3 slots change, 180.00 more,
// mean 91.0 to 88.0".
func ChangeLine(was, now *plan.Plan) string {
	diff := plan.Differences(was, now)
	if len(diff) == 0 {
		return "nothing changes"
	}
	verb := "slots change"
	if len(diff) == 1 {
		verb = "slot changes"
	}
	return fmt.Sprintf("%d %s, %s, mean %.1f to %.1f", len(diff), verb, moreOrLess(now.Expected-was.Expected), was.Grade,
		now.Grade)
}

// BindingLines say what every lock and ban costs.
func BindingLines(st *catalog.State, all []ask.Binding) []string {
	var out []string
	for i := range all {
		out = append(out, bindingHead(st, &all[i])+": "+bindingCost(&all[i]))
	}
	return out
}

// BindingHead says what a lock or a ban is, without what it costs.
func BindingHead(st *catalog.State, b *ask.Binding) string { return bindingHead(st, b) }

// WhyRows are all ways for a slot with what the set comes to, the cheapest first, and
// WhyTurns the figures at which the decision turns.
func WhyRows(w *ask.Why) [][]string {
	var out [][]string
	for i := range w.Alternatives {
		way := &w.Alternatives[i]
		more := "no set with it meets all demands"
		if way.Plan.Has {
			more = moreOrLess(way.More)
			if way.More == way.Keeps {
				more = "the least"
			}
			if kept := keepsMore(way.Keeps); kept != "" {
				more += ", " + kept
			}
			if way.Slack && way.More > way.Keeps {
				more += ", within the error of the estimates"
			}
		}
		switch {
		case way.Proven():
		case way.Plan.Has:
			more += "; not proven to be the least, which is " + leastMore(w.Advised, way.Least)
		default:
			more = "not asked to the end: " + leastMore(w.Advised, way.Least)
		}
		out = append(out, []string{plan.Told(w.Advised.Of, way.Choice), more, causes(w.Advised, way.Reasons)})
	}
	return out
}

// WhyTurns are the figures at which the decision turns, in words.
func WhyTurns(w *ask.Why) []string { return points(w) }

// OtherRows set other plans beside the advised one.
func OtherRows(advised *plan.Plan, all []ask.Other) [][]string {
	row := func(name string, p *plan.Plan, note string) []string {
		if p == nil || !p.Has {
			return []string{name, "", "", "", note}
		}
		return []string{name, catalog.FormatMoney(p.Expected), catalog.FormatMoney(p.Outlay), fmt.Sprintf("%.1f", p.Grade),
			note}
	}
	out := [][]string{row("advised", advised, "")}
	for i := range all {
		o := &all[i]
		if o.Plan == nil || !o.Plan.Has {
			out = append(out, row(otherName(o, i+1), nil, otherMissing(o)))
			continue
		}
		out = append(out, row(otherName(o, i+1), o.Plan, ChangeLine(advised, o.Plan)))
	}
	return out
}

// BenchChart is a chart for a wide page and for a narrow one.
type BenchChart struct{ Wide, Narrow template.HTML }

// MoneyChart pictures where the money of a plan goes.
func MoneyChart(p *plan.Plan) *BenchChart {
	return &BenchChart{moneyChart(p, full), moneyChart(p, narrow)}
}

// TurnsChart pictures how a plan may turn out.
func TurnsChart(p *plan.Plan, r *risk.Risk) *BenchChart {
	var sums []catalog.Cents
	for i := range 20 {
		sums = append(sums, r.Cash.Quantile((float64(i)+0.5)/20))
	}
	return &BenchChart{dotsChart(p, full, sums), dotsChart(p, narrow, sums)}
}

// CurveChart pictures what more grade costs; nil where there is no curve.
func CurveChart(p *plan.Plan, curve *ask.Curve) *BenchChart {
	if curve == nil || curve.NoPlan != nil || len(curve.Points) == 0 {
		return nil
	}
	return &BenchChart{frontierChart(p, full, curve), frontierChart(p, narrow, curve)}
}

// StopRows are the prices after stripping at which to stop.
func StopRows(st *catalog.State, all []ask.StopPrice) [][]string {
	var out [][]string
	for i := range all {
		s := &all[i]
		out = append(out, []string{plan.OfSlot(st, s.Slot, s.Choice.Piece),
			st.Platers[s.Choice.Plater].Name, catalog.FormatMoney(s.Planned), stopAbove(s)})
	}
	return out
}

// PlanLines are the lines of a plan with their charges.
func PlanLines(p *plan.Plan) [][]string {
	var out [][]string
	for i := range p.Lines {
		l := &p.Lines[i]
		out = append(out, []string{p.SlotOf(l).Name, plan.Told(p.Of, l.Choice), held(p.Of, l),
			catalog.FormatMoney(l.Expected), gradeText(p.Of, l.Choice.Grade)})
	}
	for _, c := range p.Charges {
		out = append(out, []string{"", chargeText(p.Of, c), "", catalog.FormatMoney(c.Cents), ""})
	}
	return append(out, []string{"in all", "", "", catalog.FormatMoney(p.Expected), fmt.Sprintf("%.1f", p.Grade)})
}

// JournalRows are the entries that stand, the newest first.
func JournalRows(st *catalog.State) [][]string {
	var out [][]string
	if st.Record == nil {
		return nil
	}
	for i := len(st.Record.Entries) - 1; i >= 0; i-- {
		e := &st.Record.Entries[i]
		text := EntryText(e)
		if e.Reason != "" {
			text += ": " + e.Reason
		}
		out = append(out, []string{fmt.Sprint(e.Seq), e.Day().Format("2006-01-02"), text, changedText(e)})
	}
	return out
}
