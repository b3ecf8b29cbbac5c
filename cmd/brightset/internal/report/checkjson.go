package report

import (
	"slices"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// checkDoc is the answer of check.
type checkDoc struct {
	Format   int        `json:"format"`
	Title    string     `json:"title"`
	Currency string     `json:"currency"`
	Counts   countsDoc  `json:"counts"`
	Slots    []slotDoc  `json:"slots"`
	Untaken  []takerDoc `json:"nobody_does"` // works that pieces wait for, of all slots
	Missing  []string   `json:"missing"`     // what would have to be known
	Warnings []string   `json:"warnings"`
	Names    namesDoc   `json:"names"` // by the ids, which all else goes by
}

// countsDoc is of all slots, whichever are shown.
type countsDoc struct {
	Slots    int      `json:"slots"`
	Pieces   int      `json:"pieces"`
	Choices  int      `json:"choices"`
	Admitted int      `json:"good_enough"` // of the choices
	Empty    []string `json:"nothing_for"` // slots for which nothing is good enough
}

type slotDoc struct {
	Slot     string         `json:"slot"`
	Name     string         `json:"name"`
	Quantity int            `json:"quantity"`
	Asks     limitsDoc      `json:"asks"`
	Fallback *float64       `json:"fallback_floor"`
	Area     *float64       `json:"area_dm2"`
	Rescue   catalog.Cents  `json:"rescue_cents"`
	Pieces   []pieceDoc     `json:"pieces"`
	Choices  []consideredAs `json:"choices"`
	Cant     []cantDoc      `json:"cant"`
}

// consideredAs is a choice with what was derived for it. Out and fallback_out
// are the reasons why it can't be planned or held in reserve, empty where it can.
type consideredAs struct {
	choiceDoc
	Quote       string        `json:"quote"`
	Paid        catalog.Cents `json:"paid_cents"`        // without what failing costs
	IfItComes   catalog.Cents `json:"if_it_comes_cents"` // the same whatever the chance, with its share of a bundle
	Outlay      catalog.Cents `json:"outlay_cents"`
	Grade       float64       `json:"grade"`
	Tone        float64       `json:"tone"`
	Fresh       bool          `json:"fresh"`
	Redone      bool          `json:"redone"`
	Growing     bool          `json:"growing"`
	Weak        bool          `json:"weak"` // bears less than when it was new
	Breakage    float64       `json:"breakage"`
	Refused     float64       `json:"refused"`
	Chance      float64       `json:"chance"`
	Misfit      float64       `json:"misfit"`
	Fails       float64       `json:"fails"`
	Days        int           `json:"days"`
	Out         []string      `json:"out"`
	FallbackOut []string      `json:"fallback_out"`
}

// pieceDoc is a piece that is considered for a slot.
type pieceDoc struct {
	Piece  string        `json:"piece"`
	Name   string        `json:"name"`
	Kind   string        `json:"kind"`
	Owner  string        `json:"owner"` // customer, shop, or the vendor's id
	Chance float64       `json:"chance"`
	Price  catalog.Cents `json:"price_cents"` // of one, whatever the chance
	Bundle *outOfDoc     `json:"bundle"`      // null: out of none
}

// outOfDoc is the bundle that a piece comes out of.
type outOfDoc struct {
	Bundle string        `json:"bundle"`
	Cents  catalog.Cents `json:"cents"`
	Pieces int           `json:"pieces"`
	Box    bool          `json:"box"` // it is sold by the box, so many in each
}

func outOf(st *catalog.State, p *catalog.Piece) *outOfDoc {
	if p.Bundle == catalog.None {
		return nil
	}
	b := &st.Bundles[p.Bundle]
	return &outOfDoc{b.ID, b.Price, choice.BundleCount(st, p.Bundle), b.Box > 0}
}

type cantDoc struct {
	choiceDoc
	Why string `json:"why"`
}

// CheckJSON writes what Check shows as one JSON document.
func CheckJSON(st *catalog.State, choices [][]plan.Choice, outs [][]choice.Exclusion, only int) (string, error) {
	doc := checkDoc{
		Names: namesOf(st), Format: Format, Title: st.Job.Title, Currency: st.Job.Currency,
		Counts: countsOf(st, choices), Slots: []slotDoc{}, Warnings: checkWarnings(st, choices),
		Untaken: untakenDocs(st), Missing: append([]string{}, missingTexts(st)...),
	}
	for s := range st.Slots {
		if only < 0 || only == s {
			doc.Slots = append(doc.Slots, slotOf(st, s, choices[s], outs[s]))
		}
	}
	return toJSON(doc)
}

func untakenDocs(st *catalog.State) []takerDoc {
	var takers []ask.Taker
	for _, u := range choice.UntakenWorks(st) {
		takers = append(takers, ask.Taker{Work: u.Work, Pieces: u.Pieces})
	}
	return takerDocs(st, takers)
}

func countsOf(st *catalog.State, choices [][]plan.Choice) countsDoc {
	doc := countsDoc{Slots: len(st.Slots), Pieces: len(st.Pieces), Empty: []string{}}
	for s, list := range choices {
		in := admittedIn(st, list)
		if doc.Choices, doc.Admitted = doc.Choices+len(list), doc.Admitted+in; in == 0 {
			doc.Empty = append(doc.Empty, st.Slots[s].ID)
		}
	}
	return doc
}

// areaOf is null where none is given.
func areaOf(slot *catalog.Slot) *float64 {
	if !slot.Area.Set {
		return nil
	}
	area := millionths(slot.Area.V)
	return &area
}

func slotOf(st *catalog.State, s int, list []plan.Choice, outs []choice.Exclusion) slotDoc {
	slot := &st.Slots[s]
	t := &slot.Target
	doc := slotDoc{Slot: slot.ID, Name: slot.Name, Quantity: slot.Quantity, Rescue: slot.Rescue.V,
		Fallback: grade(t.FallbackFloor), Area: areaOf(slot),
		Asks: limitsDoc{
			Grade:    grade(t.Floor),
			Fresh:    t.Fresh.Or(false),
			Redone:   t.Redone.Or(false),
			Lasting:  t.Lasting.Or(false),
			Breakage: chance(slot.MaxBreakage),
		}, Pieces: []pieceDoc{}, Choices: []consideredAs{}, Cant: []cantDoc{}}
	for i := range st.Pieces {
		if slices.ContainsFunc(list, func(c plan.Choice) bool { return c.Piece == i }) ||
			slices.ContainsFunc(outs, func(o choice.Exclusion) bool { return o.Piece == i }) {
			p := &st.Pieces[i]
			doc.Pieces = append(doc.Pieces, pieceDoc{plan.PieceName(st, i), p.Name, string(p.Kind), ownerOf(st, p),
				millionths(p.Chance), p.Price, outOf(st, p)})
		}
	}
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
		choiceDoc: choiceOf(st, c), Paid: c.ExpectedCost, IfItComes: choice.IfItComes(st, c), Outlay: c.Cash,
		Grade: hundredths(c.Grade), Tone: hundredths(c.Tone), Fresh: c.Fresh, Redone: c.Redone, Growing: c.Growing,
		Weak:     c.Weak,
		Breakage: millionths(c.Breakage), Refused: millionths(c.Refused), Chance: millionths(c.Chance),
		Misfit: millionths(c.Misfit),
		Fails:  millionths(c.Fails), Days: c.Days, Out: []string{}, FallbackOut: []string{},
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
