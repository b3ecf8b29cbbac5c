package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/risk"
)

// riskDetail is the figures and how they are come by.
func riskDetail(r *risk.Risk, s *risk.Simulation) string {
	t := NewTable(spentHeads...)
	for _, row := range spentRows(r, s) {
		t.Row(row...)
	}
	return t.String() + "\n" + Paragraph("", "", spentNote(r, s))
}

var spentHeads = []string{"what is spent", ">1 in 10", ">half", ">9 in 10", ">mean"}

// spentRows is what is spent, reckoned in each way that there is.
func spentRows(r *risk.Risk, s *risk.Simulation) [][]string {
	rows := [][]string{{fmt.Sprintf("exact, prices as planned, to within %s", catalog.FormatMoney(max(r.Cash.Step,
		r.Cash.Off))), catalog.FormatMoney(r.Cash.Quantile(0.1)), catalog.FormatMoney(r.Cash.Quantile(0.5)),
		catalog.FormatMoney(r.Cash.Quantile(0.9)), catalog.FormatMoney(catalog.Cents(r.Cash.Mean() + 0.5))}}
	for _, row := range []struct {
		name string
		runs []catalog.Cents
	}{{"simulated, estimates off as well", s.Cash}, {"the same, deciding again after each failure", s.Replan}} {
		if s.Runs == 0 {
			continue
		}
		rows = append(rows, []string{row.name, catalog.FormatMoney(risk.Quantile(row.runs, 0.1)),
			catalog.FormatMoney(risk.Quantile(row.runs, 0.5)), catalog.FormatMoney(risk.Quantile(row.runs, 0.9)),
			catalog.FormatMoney(mean(row.runs))})
	}
	return rows
}

// spentNote says how they are come by.
func spentNote(r *risk.Risk, s *risk.Simulation) string {
	return fmt.Sprintf("Exact: every slot by itself, all its outcomes convolved. Simulated: %d runs with a fixed seed; "+
		"the work of one plater is off by one factor in a run, %s; firm prices stay, "+
		"and a price with a range of its own keeps within it. "+
		"Deciding again takes the cheapest piece left over that fits, whatever slot it was held for. "+
		"Grade: what a rescue finds is taken to be just as good as its slot asks for.", s.Runs, triangle(r.Plan.Of))
}

// triangle says between what shares guesses are drawn.
func triangle(st *catalog.State) string {
	low, high := &st.Tables.Spread.Low, &st.Tables.Spread.High
	text := fmt.Sprintf("triangular from -%s%% to +%s%%", catalog.FormatMicro(100*low.V), catalog.FormatMicro(100*high.V))
	if low.From.Source == catalog.StartingValue && high.From.Source == catalog.StartingValue {
		text += " (common practice, no published source)"
	}
	for q := range st.Platers {
		if own := choice.PlaterSpread(st, q); own != st.Tables.Spread {
			text += fmt.Sprintf(", of %s from -%s%% to +%s%%", st.Platers[q].Name, catalog.FormatMicro(100*own.Low.V),
				catalog.FormatMicro(100*own.High.V))
		}
	}
	return text
}
