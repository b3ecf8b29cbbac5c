package report

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// checkDoc is the answer of check.
type checkDoc struct {
	Format   int       `json:"format"`
	Title    string    `json:"title"`
	Currency string    `json:"currency"`
	Slots    []slotDoc `json:"slots"`
	Warnings []string  `json:"warnings"`
}

type slotDoc struct {
	Slot     string         `json:"slot"`
	Quantity int            `json:"quantity"`
	Choices  []consideredAs `json:"choices"`
	Cant     []cantDoc      `json:"cant"`
}

// consideredAs is a choice with what was derived for it. Out and fallback_out
// are the reasons why it can't be planned or held in reserve, empty where it can.
type consideredAs struct {
	choiceDoc
	Quote       string        `json:"quote"`
	Paid        catalog.Cents `json:"paid_cents"` // without what failing costs
	Outlay      catalog.Cents `json:"outlay_cents"`
	Grade       float64       `json:"grade"`
	Tone        float64       `json:"tone"`
	Fresh       bool          `json:"fresh"`
	Growing     bool          `json:"growing"`
	Breakage    float64       `json:"breakage"`
	Refused     float64       `json:"refused"`
	Chance      float64       `json:"chance"`
	Fails       float64       `json:"fails"`
	Days        int           `json:"days"`
	Out         []string      `json:"out"`
	FallbackOut []string      `json:"fallback_out"`
}

type cantDoc struct {
	choiceDoc
	Why string `json:"why"`
}

// CheckJSON writes what Check shows as one JSON document.
func CheckJSON(st *catalog.State, choices [][]plan.Choice, outs [][]choice.Out, only int) (string, error) {
	doc := checkDoc{
		Format: Format, Title: st.Job.Title, Currency: st.Job.Currency,
		Slots: []slotDoc{}, Warnings: checkWarnings(st, choices),
	}
	for s := range st.Slots {
		if only < 0 || only == s {
			doc.Slots = append(doc.Slots, slotOf(st, s, choices[s], outs[s]))
		}
	}
	return toJSON(doc)
}

func slotOf(st *catalog.State, s int, list []plan.Choice, outs []choice.Out) slotDoc {
	doc := slotDoc{Slot: st.Slots[s].ID, Quantity: st.Slots[s].Quantity, Choices: []consideredAs{}, Cant: []cantDoc{}}
	for i := range list {
		doc.Choices = append(doc.Choices, considered(st, &list[i]))
	}
	for _, o := range outs {
		c := choiceDoc{Piece: plan.PieceName(st, o.Piece), Work: o.Work, Level: o.Level}
		if o.Plater != catalog.None {
			c.Plater = st.Platers[o.Plater].ID
		}
		doc.Cant = append(doc.Cant, cantDoc{c, o.Why})
	}
	return doc
}

func considered(st *catalog.State, c *plan.Choice) consideredAs {
	doc := consideredAs{
		choiceDoc: choiceOf(st, c), Paid: c.Paid, Outlay: c.Cash,
		Grade: hundredths(c.Grade), Tone: hundredths(c.Tone), Fresh: c.Fresh, Growing: c.Growing,
		Breakage: millionths(c.Breakage), Refused: millionths(c.Refused), Chance: millionths(c.Chance),
		Fails: millionths(c.Fails), Days: c.Days, Out: []string{}, FallbackOut: []string{},
	}
	if c.Quote != catalog.None {
		doc.Quote = st.Pieces[c.Piece].Quotes[c.Quote].ID
	}
	for _, r := range program.Admit(st, c, program.Planned) {
		doc.Out = append(doc.Out, r.Why)
	}
	for _, r := range program.Admit(st, c, program.Reserve) {
		doc.FallbackOut = append(doc.FallbackOut, r.Why)
	}
	return doc
}
