package report

import (
	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
)

// whyDoc is the answer of why.
type whyDoc struct {
	Format   int            `json:"format"`
	Title    string         `json:"title"`
	Status   string         `json:"status"` // optimal, or stopped: not everything was looked at
	Slot     string         `json:"slot"`
	Currency string         `json:"currency"`
	Expected catalog.Cents  `json:"expected_cents"` // of the advised plan
	Ways     []wayDoc       `json:"ways"`
	Outs     []outDoc       `json:"out"`
	Keeping  *keepingDoc    `json:"keeping"` // the object's own piece; null where that is not weighed here
	Rules    []rulePriceDoc `json:"rules"`   // the demands that have a say
	Points   []pointDoc     `json:"turns"`
	Open     []pointDoc     `json:"turns_unsettled"` // it stands up to last; whether beyond is not known
	Names    namesDoc       `json:"names"`           // by the ids, which all else goes by
}

type rulePriceDoc struct {
	requirementDoc
	Costs   catalog.Cents `json:"costs_cents"`
	Most    catalog.Cents `json:"costs_at_most_cents"` // where that is not proven, so much at most
	Keeps   catalog.Cents `json:"keeps_less_cents"`    // worth to the owner, no money
	Instead *choiceDoc    `json:"instead"`             // what would fill the slot without it; null: the same
}

// keepingDoc is what it costs to hang the object's own piece.
type keepingDoc struct {
	choiceDoc
	Costs catalog.Cents `json:"costs_cents"` // than the best set without one here
	Worth catalog.Cents `json:"worth_cents"` // to the owner: no money
}

// wayDoc is one choice. Sums are null where no set with it meets all demands, and where
// none was found in time: that is not proven, then.
type wayDoc struct {
	choiceDoc
	Advised  bool           `json:"advised"`
	Grade    float64        `json:"grade"`
	Expected *catalog.Cents `json:"expected_cents"` // of the whole set
	More     *catalog.Cents `json:"more_cents"`
	Proven   bool           `json:"proven"`
	Least    *catalog.Cents `json:"more_at_least_cents"` // less keeps_more_cents, whatever set with it there is
	Keeps    catalog.Cents  `json:"keeps_more_cents"`    // of the object's own than advised, worth to the owner: no money
	Mean     *float64       `json:"mean"`
	Level    bool           `json:"within_error"` // as good as level with the advised choice
	Causes   []causeDoc     `json:"causes"`       // they add up to more_cents
	Rest     catalog.Cents  `json:"rest_cents"`   // the causes beyond the biggest three
}

type causeDoc struct {
	Kind     string        `json:"kind"` // price, work, risk, other, or the kind of a charge
	Of       string        `json:"of"`   // the slot, or what the charge is for
	Choice   *choiceDoc    `json:"choice"`
	Fallback *choiceDoc    `json:"fallback"` // what is then held in reserve there
	Cents    catalog.Cents `json:"cents"`
}

type outDoc struct {
	choiceDoc
	Why string `json:"why"`
}

// pointDoc has money in cents, chances as 0..1, grades as 0..100: of one piece, before any
// fitting, as they stand in the files. One unit beyond last the decision turns.
type pointDoc struct {
	choiceDoc
	Figure string  `json:"figure"` // plating, price, breakage, grade
	Now    float64 `json:"now"`
	Last   float64 `json:"last"`  // the last value at which the decision stands
	Never  bool    `json:"never"` // it doesn't turn at any value up to last, the furthest that the files take
	// Most is the last value at which it may stand for all that is known: last where that is
	// proven, null where nothing is known to turn.
	Most *float64 `json:"most"`
}

// WhyJSON writes the answer of why as one JSON document.
func WhyJSON(w *ask.Why) (string, error) {
	st := w.Advised.Of
	doc := whyDoc{Names: namesOf(st), Format: Format, Title: st.Job.Title, Status: "optimal", Slot: st.Slots[w.Slot].ID,
		Currency: st.Job.Currency,
		Expected: w.Advised.Expected, Ways: []wayDoc{}, Outs: []outDoc{}, Rules: []rulePriceDoc{}, Points: []pointDoc{},
		Open: []pointDoc{}}
	if w.Stopped {
		doc.Status = "stopped"
	}
	if k := keepingIn(w); k != nil {
		doc.Keeping = &keepingDoc{choiceOf(st, k.own.Choice), k.costs, k.worth}
	}
	for i := range w.Alternatives {
		doc.Ways = append(doc.Ways, wayOf(w, &w.Alternatives[i]))
	}
	for i := range w.Outs {
		o := &w.Outs[i]
		d := choiceDoc{Piece: plan.PieceName(st, o.Piece), Work: o.Work, Level: o.Level}
		if o.Plater != catalog.None {
			d.Plater = st.Platers[o.Plater].ID
		}
		doc.Outs = append(doc.Outs, outDoc{d, o.Why})
	}
	for i := range w.Rules {
		r := &w.Rules[i]
		d := rulePriceDoc{requirementDoc: requirementOf(st, &r.Requirement), Costs: r.Costs, Most: r.Most, Keeps: r.Keeps}
		if r.Instead != nil {
			c := choiceOf(st, r.Instead)
			d.Instead = &c
		}
		doc.Rules = append(doc.Rules, d)
	}
	for i := range w.Points {
		doc.Points = append(doc.Points, pointOf(st, &w.Points[i]))
	}
	for i := range w.Unsettled {
		doc.Open = append(doc.Open, pointOf(st, &w.Unsettled[i]))
	}
	return toJSON(doc)
}

func pointOf(st *catalog.State, p *ask.Breakpoint) pointDoc {
	d := pointDoc{choiceDoc: choiceOf(st, p.Choice), Figure: string(p.Figure), Now: figureNumber(p, p.Now),
		Last: figureNumber(p, p.Last), Never: p.Never}
	if p.Proven() || p.Turns {
		most := figureNumber(p, p.Most)
		d.Most = &most
	}
	return d
}

func wayOf(w *ask.Why, way *ask.Alternative) wayDoc {
	d := wayDoc{
		choiceDoc: choiceOf(w.Advised.Of, way.Choice),
		Advised:   w.Taken(way),
		Grade:     hundredths(way.Choice.Grade),
		Causes:    []causeDoc{},
		Proven:    way.Proven(),
	}
	if way.Plan.Has || !d.Proven {
		d.Least = &way.Least
	}
	if way.Plan.Has {
		mean := finite(way.Plan.Grade)
		d.Expected, d.More, d.Mean, d.Level = &way.Plan.Expected, &way.More, &mean, way.Slack
		d.Keeps = way.Keeps
	}
	d.Causes = causeDocs(w.Advised, way.Reasons)
	for i := mostCauses; i < len(way.Reasons); i++ {
		d.Rest += way.Reasons[i].Cents
	}
	return d
}

func causeDocs(p *plan.Plan, all []plan.Cause) []causeDoc {
	docs := []causeDoc{}
	for i := range all {
		c := &all[i]
		d := causeDoc{Kind: string(c.Kind), Of: p.Of.Slots[c.Slot].ID, Cents: c.Cents}
		switch c.Kind {
		case plan.CauseCharge:
			d.Kind, d.Of = string(c.Charge.Kind), chargeOf(p, c.Charge)
		case plan.CauseOther:
			now := choiceOf(p.Of, c.Now.Choice)
			d.Choice = &now
			if f := c.Now.Fallback; f != nil {
				held := choiceOf(p.Of, f)
				d.Fallback = &held
			}
		}
		docs = append(docs, d)
	}
	return docs
}

func figureNumber(p *ask.Breakpoint, v int64) float64 {
	switch p.Figure {
	case choice.FigurePlating, choice.FigurePrice:
		return float64(v)
	case choice.FigureBreakage:
		return float64(v) / 1e6
	}
	return float64(v) / 100
}

// insteadDoc is the answer of why --instead. Lines are empty and the sums null
// where no set with it meets all demands.
type insteadDoc struct {
	Format      int             `json:"format"`
	Title       string          `json:"title"`
	Currency    string          `json:"currency"`
	Status      string          `json:"status"`
	Slot        string          `json:"slot"`
	Advised     catalog.Cents   `json:"advised_cents"`
	Expected    *catalog.Cents  `json:"expected_cents"`
	More        *catalog.Cents  `json:"more_cents"` // than advised
	Outlay      *catalog.Cents  `json:"outlay_cents"`
	Grade       *float64        `json:"grade"`
	Lines       []lineDoc       `json:"lines"`
	Charges     []chargeDoc     `json:"charges"`
	Changed     []string        `json:"changed"`     // slots filled otherwise than advised
	Differences []differenceDoc `json:"differences"` // what changes there
	Causes      []causeDoc      `json:"causes"`      // what makes the difference in total
	Names       namesDoc        `json:"names"`       // by the ids, which all else goes by
}

// InsteadJSON writes the answer of why --instead as one JSON document.
func InsteadJSON(slot int, advised, pl *plan.Plan) (string, error) {
	doc := insteadDoc{Format: Format, Title: advised.Of.Job.Title, Currency: advised.Of.Job.Currency,
		Names:  namesOf(advised.Of),
		Status: pl.Status.String(), Slot: advised.Of.Slots[slot].ID, Advised: advised.Expected,
		Lines: []lineDoc{}, Charges: []chargeDoc{}, Changed: []string{}, Differences: []differenceDoc{}, Causes: []causeDoc{}}
	if !pl.Has {
		return toJSON(doc)
	}
	grade, more := finite(pl.Grade), pl.Expected-advised.Expected
	doc.More, doc.Differences = &more, differenceDocs(advised, pl)
	doc.Expected, doc.Outlay, doc.Grade = &pl.Expected, &pl.Outlay, &grade
	for i := range pl.Lines {
		doc.Lines = append(doc.Lines, lineOf(advised.Of, &pl.Lines[i]))
	}
	for _, c := range pl.Charges {
		doc.Charges = append(doc.Charges, chargeDoc{string(c.Kind), chargeOf(advised, c), c.Cents})
	}
	for _, d := range plan.Differences(advised, pl) {
		doc.Changed = append(doc.Changed, advised.Of.Slots[d.Slot].ID)
	}
	doc.Causes = causeDocs(advised, plan.Causes(slot, advised, pl))
	return toJSON(doc)
}
