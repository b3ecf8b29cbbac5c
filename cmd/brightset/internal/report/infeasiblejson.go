package report

import (
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/choice"
	"brightset/model/plan"
)

type conflictDoc struct {
	Requirements []requirementDoc `json:"requirements"`
	Minimal      bool             `json:"minimal"`
}

type requirementDoc struct {
	Kind   string    `json:"kind"`
	Of     string    `json:"of"`
	Words  string    `json:"words"`
	Asks   limitsDoc `json:"asks"`   // the same as numbers
	Reason string    `json:"reason"` // of a lock or ban
}

// limitsDoc is what a requirement asks, or would ask after a step back: only what it is
// about is there.
type limitsDoc struct {
	Budget     *catalog.Cents `json:"budget_cents,omitempty"` // what is spent already included
	More       *catalog.Cents `json:"more_cents,omitempty"`   // than the budget there is
	Spent      *catalog.Cents `json:"spent_cents,omitempty"`
	Mean       *float64       `json:"mean,omitempty"`
	Completion *float64       `json:"completion,omitempty"`
	Days       *int           `json:"within_days,omitempty"`
	Grade      *float64       `json:"grade,omitempty"`
	Fresh      bool           `json:"fresh,omitempty"`
	Redone     bool           `json:"redone,omitempty"`
	Lasting    bool           `json:"lasting,omitempty"`
	Breakage   *float64       `json:"max_breakage,omitempty"`
	Pieces     *int           `json:"pieces,omitempty"` // that there are
	Slot       string         `json:"slot,omitempty"`   // where it hangs
	Plater     string         `json:"plater,omitempty"` // that it is at
	Strip      *catalog.Cents `json:"strip_fee_cents,omitempty"`
}

// requirementOf says what is asked in words and as numbers.
func requirementOf(st *catalog.State, r *ask.Requirement) requirementDoc {
	doc := requirementDoc{Kind: r.Kind, Of: r.Of, Words: r.Words, Asks: limitsOf(st, r)}
	switch r.Kind {
	case "lock":
		doc.Reason = st.Locks[r.Index()].Reason
	case "ban":
		doc.Reason = st.Bans[r.Index()].Reason
	}
	return doc
}

// limitsOf is what a job asks where a requirement is about it.
func limitsOf(st *catalog.State, r *ask.Requirement) limitsDoc {
	doc := limitsDoc{}
	switch r.Kind {
	case "budget":
		whole := st.Job.Budget.V + st.Job.SpentSum
		doc.Budget = &whole
		if st.Job.SpentSum != 0 {
			doc.Spent = &st.Job.SpentSum
		}
	case "mean":
		doc.Mean = grade(st.Job.Target.Mean)
	case "completion":
		doc.Completion = chance(st.Job.Completion)
	case "date":
		doc.Days = withinDays(st)
	case "slot":
		t := &st.Slots[r.Index()].Target
		doc.Grade, doc.Fresh, doc.Redone, doc.Lasting = grade(t.Floor), t.Fresh.V, t.Redone.V, t.Lasting.V
	case "breakage":
		doc.Breakage = chance(st.Slots[r.Index()].MaxBreakage)
	case "piece":
		there := choice.PieceCount(&st.Pieces[r.Index()])
		doc.Pieces = &there
	case "hung":
		doc.Slot = st.Slots[st.Pieces[r.Index()].HungIn].ID
	case "sent":
		q := &st.Platers[st.Pieces[r.Index()].Sent.Plater]
		if doc.Plater = q.ID; q.StripFee > 0 {
			doc.Strip = &q.StripFee
		}
	}
	return doc
}

// giveUpDoc is a step back. Where it is not enough by itself it doesn't fit, nothing
// stands instead, and the sums are null.
type giveUpDoc struct {
	requirementDoc
	Fits     bool           `json:"fits"`
	Instead  string         `json:"instead"`  // "" where it doesn't fit
	New      *limitsDoc     `json:"asks_new"` // what would be asked; null: it is dropped, or doesn't fit
	Expected *catalog.Cents `json:"expected_cents"`
	Grade    *float64       `json:"grade"`
}

func giveUpOf(st *catalog.State, g *ask.Relaxation) giveUpDoc {
	d := giveUpDoc{requirementDoc: requirementOf(st, &g.Requirement), Instead: g.Words}
	if g.Plan == nil || !g.Plan.Has {
		return d
	}
	grade := finite(g.Plan.Grade)
	d.Fits, d.Expected, d.Grade = true, &g.Plan.Expected, &grade
	if g.State != nil {
		asks := limitsOf(g.State, &g.Requirement)
		if d.New = &asks; g.Requirement.Kind == "budget" {
			more := g.State.Job.Budget.V - st.Job.Budget.V
			asks.More = &more
		}
	}
	return d
}

// conflictDocs turns what clashes into documents.
func conflictDocs(st *catalog.State, c *ask.Explanation) []conflictDoc {
	all := c.More
	if len(c.Conflict) > 0 {
		all = append([]ask.Conflict{{Requirements: c.Conflict, Minimal: c.Minimal}}, all...)
	}
	docs := []conflictDoc{}
	for _, one := range all {
		d := conflictDoc{Minimal: one.Minimal, Requirements: []requirementDoc{}}
		for i := range one.Requirements {
			d.Requirements = append(d.Requirements, requirementOf(st, &one.Requirements[i]))
		}
		docs = append(docs, d)
	}
	return docs
}

// nearestDoc is the cheapest step back that takes no piece nobody has, with its set.
type nearestDoc struct {
	GiveUp   int           `json:"give_up"` // place in give_up
	Expected catalog.Cents `json:"expected_cents"`
	Outlay   catalog.Cents `json:"outlay_cents"`
	Grade    float64       `json:"grade"`
	Lines    []lineDoc     `json:"lines"`
	Charges  []chargeDoc   `json:"charges"`
}

// bareDoc is the cheapest set without any of all that clashes.
type bareDoc struct {
	Expected catalog.Cents `json:"expected_cents"`
	Grade    float64       `json:"grade"`
}

// unfilledDoc is a slot that nothing can fill.
type unfilledDoc struct {
	Slot string     `json:"slot"`
	Name string     `json:"name"`
	Asks limitsDoc  `json:"asks"`  // what it takes
	Best *choiceDoc `json:"best"`  // that there is; null: no piece fits the slot
	Hung bool       `json:"hangs"` // that is what hangs there
	// Grade is what the best reaches, with the figure by which it is out.
	Grade *float64 `json:"grade"`
	Days  *int     `json:"days"`
	Why   string   `json:"why"` // the best is out
	Words string   `json:"words"`
}

func unfilledDocs(p *plan.Plan) []unfilledDoc {
	docs := []unfilledDoc{}
	for i := range p.Unfilled {
		u := &p.Unfilled[i]
		slot := &p.Of.Slots[u.Slot]
		d := unfilledDoc{Slot: slot.ID, Name: slot.Name, Hung: u.Hung, Why: u.Why, Words: p.Reasons[i],
			Asks: limitsDoc{Grade: grade(slot.Target.Floor), Fresh: slot.Target.Fresh.V, Redone: slot.Target.Redone.V,
				Lasting: slot.Target.Lasting.V, Breakage: chance(slot.MaxBreakage), Days: withinDays(p.Of)}}
		if u.Best != nil {
			best, reaches := choiceOf(p.Of, u.Best), hundredths(u.Best.Grade)
			d.Best, d.Grade, d.Days = &best, &reaches, &u.Best.Days
		}
		docs = append(docs, d)
	}
	return docs
}

// nothingDoc is what is said besides where there is no plan.
type nothingDoc struct {
	Conflicts []conflictDoc `json:"conflicts"`
	GiveUps   []giveUpDoc   `json:"give_up"`
	Nearest   *nearestDoc   `json:"nearest"`     // null: no step back is enough
	Bare      *bareDoc      `json:"without_any"` // null: one step back may be enough, or not found
	Unfilled  []unfilledDoc `json:"unfilled"`
	NoPlater  bool          `json:"no_plater"`     // nobody plates at all
	Takers    []takerDoc    `json:"takers"`        // works that somebody has to be found for first
	WithThem  *bareDoc      `json:"with_takers"`   // the set if somebody did them; null: not even then, or none is missed
	Early     bool          `json:"stopped_early"` // not everything was looked at
}

// InfeasibleJSON writes what plan --json does, with what clashes and what could be
// given up.
func InfeasibleJSON(p *plan.Plan, c *ask.Explanation) (string, error) {
	text, err := PlanJSON(p, &Beside{})
	if err != nil {
		return "", err
	}
	doc := nothingDoc{
		Conflicts: conflictDocs(p.Of, c),
		GiveUps:   []giveUpDoc{},
		Unfilled:  unfilledDocs(p),
		Early:     c.Stopped,
	}
	best := nearest(c)
	for i := range c.Relaxations {
		g := &c.Relaxations[i]
		doc.GiveUps = append(doc.GiveUps, giveUpOf(p.Of, g))
		if g == best {
			doc.Nearest = &nearestDoc{i, g.Plan.Expected, g.Plan.Outlay, finite(g.Plan.Grade), lineDocs(g.Plan),
				chargeDocs(g.Plan)}
		}
	}
	doc.NoPlater, doc.Takers = c.NobodyPlates(p.Of), takerDocs(p.Of, c.Takers)
	if c.WithTakers != nil && c.WithTakers.Has {
		doc.WithThem = &bareDoc{c.WithTakers.Expected, finite(c.WithTakers.Grade)}
	}
	if c.Bare != nil {
		doc.Bare = &bareDoc{c.Bare.Expected, finite(c.Bare.Grade)}
	}
	more, err := toJSON(doc)
	return strings.TrimSuffix(text, "\n}\n") + "," + strings.TrimPrefix(more, "{"), err
}
