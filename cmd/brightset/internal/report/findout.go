package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Unknown is what is worth finding out before anything is committed. Whole: every
// open figure was looked at to the end.
type Unknown struct {
	All   []ask.InformationValue
	Whole bool
}

// mostFindOuts is how many are told, the most valuable first.
const mostFindOuts = 6

// findOuts is "" where nobody asked for it.
func findOuts(st *catalog.State, f *Unknown) string {
	if f == nil {
		return ""
	}
	var all []string
	for i := range f.All[:min(mostFindOuts, len(f.All))] {
		o := &f.All[i]
		text := findOut(st, o) + worthKnowing(o)
		if !o.Planned {
			text += "; it may do better than what is planned"
		}
		all = append(all, text)
	}
	if n := len(f.All) - mostFindOuts; n > 0 {
		less := ", each worth less"
		if !f.Whole { // what is not proven may be worth more
			less = ""
		}
		all = append(all, fmt.Sprintf("%s more%s: brightset risk --find-out --json", count(n, "figure"), less))
	}
	switch {
	case !f.Whole:
		all = append(all, "stopped early: not every open figure was looked at to the end")
	case len(all) == 0:
		return Paragraph("", "", "What to find out first: nothing is worth it; prices, breakage, grades, "+
			"leads and starting values may be off as far as they usually are, and the plan still stands.")
	default:
		all = append(all, "every other price, breakage, grade, lead and starting value is safe: "+
			"knowing it would change nothing, or save less than finding it out costs")
	}
	return list("What to find out first:", all)
}

// worthKnowing says what it is worth to find a figure out.
func worthKnowing(o *ask.InformationValue) string {
	if o.Gain != o.AtMost {
		return fmt.Sprintf(": worth %s on average", bracket(o.Gain, o.AtMost))
	}
	return fmt.Sprintf(": worth %s on average, up to %s", catalog.FormatMoney(o.Gain), catalog.FormatMoney(o.Most))
}

// findOut says how to find one figure out. What breaks shows best once the old
// plating is off.
func findOut(st *catalog.State, o *ask.InformationValue) string {
	switch o.Figure {
	case choice.FigurePlating:
		return fmt.Sprintf("ask %s for a firm price on %s", st.Platers[o.Plater].Name, plan.PieceCalled(st, o.Piece))
	case choice.FigureGrade:
		return fmt.Sprintf("ask %s what grade he reaches on %s, and see his work", st.Platers[o.Plater].Name,
			plan.PieceCalled(st, o.Piece))
	case choice.FigureBreakage:
		q := &st.Platers[o.Plater]
		text := fmt.Sprintf("have %s strip %s and look whether it will stand the work", q.Name, plan.PieceCalled(st, o.Piece))
		if fee := o.Fee(st); fee > 0 {
			text += fmt.Sprintf(" (fee %s)", catalog.FormatMoney(fee))
		}
		return text
	case ask.FigureLead:
		return fmt.Sprintf("ask whether %s will come", plan.PieceCalled(st, o.Piece))
	case ask.FigureRescue:
		return "find out what a piece in a hurry would cost, and give it as rescue"
	case ask.FigureHourly:
		return "work out what an hour in the shop costs, and give it as hourly"
	case ask.FigureHours:
		return fmt.Sprintf("try %q on scrap, or ask who does it, and give its hours", st.Tables.Works[o.Work].Name)
	default:
		return fmt.Sprintf("ask how often pieces of %s are lost in plating, and give it as base",
			st.Tables.Metals[o.Metal].Name)
	}
}

type findOutDoc struct {
	Figure  string        `json:"figure"` // plating, breakage, grade, lead, rescue, hourly, hours, base
	Piece   string        `json:"piece"`  // "" where it is not a piece's; the rest likewise
	Plater  string        `json:"plater"`
	Metal   string        `json:"metal"`
	Work    string        `json:"trade_work"`
	Fee     catalog.Cents `json:"strip_fee_cents"` // where stripping it is the way to find out
	Planned bool          `json:"planned"`
	Gain    catalog.Cents `json:"gain_cents"` // expected
	// Where it is not proven it is gain_cents at least and this at most; null: no end is known.
	AtMost *catalog.Cents `json:"gain_at_most_cents"`
	Most   catalog.Cents  `json:"most_cents"`
}

func findOutDocs(st *catalog.State, f *Unknown) []findOutDoc {
	docs := []findOutDoc{}
	for i := range f.All {
		o := &f.All[i]
		doc := findOutDoc{Figure: string(o.Figure), Planned: o.Planned, Gain: o.Gain, Most: o.Most}
		if o.AtMost < catalog.Cents(catalog.MaxSum) {
			doc.AtMost = &o.AtMost
		}
		if o.Piece != catalog.None {
			doc.Piece = plan.PieceName(st, o.Piece)
		}
		if o.Plater != catalog.None {
			doc.Plater, doc.Fee = st.Platers[o.Plater].ID, o.Fee(st)
		}
		if o.Metal != catalog.None {
			doc.Metal = st.Tables.Metals[o.Metal].Name
		}
		if o.Work != catalog.None {
			doc.Work = st.Tables.Works[o.Work].Name
		}
		docs = append(docs, doc)
	}
	return docs
}
