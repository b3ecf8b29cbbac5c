package report

import (
	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

type huntDoc struct {
	Format   int            `json:"format"`
	Title    string         `json:"title"`
	Status   string         `json:"status"` // of the set without any find
	Currency string         `json:"currency"`
	Expected *catalog.Cents `json:"expected_cents"`
	Finds    []findDoc      `json:"finds"`
	Pairs    []pairDoc      `json:"pairs"`
	Leads    []leadDoc      `json:"leads"`
	Tours    []tourDoc      `json:"tours"`
	Within   *int           `json:"within_days"` // null: no date
	Whole    bool           `json:"whole"`       // everything was looked at
	Names    namesDoc       `json:"names"`       // by the ids, which all else goes by
}

type leadDoc struct {
	Piece   string        `json:"piece"`
	Slot    string        `json:"slot"`
	Reserve bool          `json:"reserve"`
	Given   bool          `json:"given"` // in trade for what is planned in the slot
	Worth   catalog.Cents `json:"worth_cents"`
	// Where it is not proven it is worth_cents at least and this at most; null: no end is known.
	Most    *catalog.Cents `json:"worth_at_most_cents"`
	Needed  bool           `json:"needed"`
	LastDay *int           `json:"last_day"` // by which it has to be here; null: no date
	LastOn  string         `json:"last_on"`  // the same in the calendar, "" where the job has no start
	Proven  bool           `json:"proven"`
}

// tourDoc is the order in which to try the avenues for one find.
type tourDoc struct {
	Find    int            `json:"find"` // place in finds
	Slot    string         `json:"slot"`
	Profile string         `json:"profile"`
	Worth   *catalog.Cents `json:"worth_cents"`    // as in finds
	Expects *catalog.Cents `json:"expected_cents"` // null: the find is needed, or its worth not proven
	Tries   []tryDoc       `json:"tries"`
}

type tryDoc struct {
	Avenue string        `json:"avenue"`
	Where  string        `json:"where"`
	Cost   catalog.Cents `json:"cost_cents"` // of a try
	Chance float64       `json:"chance"`     // to find one
	Likely catalog.Cents `json:"likely_cents"`
	Skip   catalog.Cents `json:"skip_cents"` // not worth a try with one in hand for this or less
}

type findDoc struct {
	Slot    string   `json:"slot"`
	Profile string   `json:"profile"`
	Kind    string   `json:"kind"`
	Metal   string   `json:"metal"` // that it is taken to be made of: the usual one of the slot
	Grade   *float64 `json:"grade"` // as it lies; null: sound, to be plated
	Work    string   `json:"work"`
	Plater  string   `json:"plater"`
	Level   string   `json:"level"`
	// At most, freight included; null: it is needed, and no budget sets an end.
	Worth *catalog.Cents `json:"worth_cents"`
	// Where it is not proven it is worth_cents at least and this at most; null: no end is known.
	Most   *catalog.Cents `json:"worth_at_most_cents"`
	Needed bool           `json:"needed"` // without it nothing meets the target
	Proven bool           `json:"proven"`
}

type pairDoc struct {
	Finds    [2]int        `json:"finds"` // places in finds
	Together catalog.Cents `json:"together_cents"`
	Singly   catalog.Cents `json:"one_by_one_cents"`
	// Where either is not proven it is that at least and this at most; null: no end is known.
	TogetherMost *catalog.Cents `json:"together_at_most_cents"`
	SinglyMost   *catalog.Cents `json:"one_by_one_at_most_cents"`
}

// HuntJSON writes the answer of hunt as one JSON document.
func HuntJSON(h *ask.Hunted) (string, error) {
	st := h.Plan.Of
	doc := huntDoc{
		Format: Format, Title: st.Job.Title, Within: withinDays(st), Status: h.Plan.Status.String(),
		Currency: st.Job.Currency, Finds: []findDoc{}, Pairs: []pairDoc{}, Leads: []leadDoc{}, Tours: []tourDoc{},
		Whole: h.Whole, Names: namesOf(st),
	}
	if h.Plan.Has {
		doc.Expected = &h.Plan.Expected
	}
	for i := range h.Finds {
		f := &h.Finds[i]
		c := choiceDoc{Work: f.Choice.Work, Level: f.Choice.Level}
		if f.Choice.Plated() {
			c.Plater = st.Platers[f.Choice.Plater].ID
		}
		d := findDoc{Slot: st.Slots[f.Slot].ID, Profile: f.Profile.Name, Kind: string(f.Profile.Kind),
			Metal: st.Tables.Metals[f.Metal].Name,
			Work:  c.Work, Plater: c.Plater, Level: c.Level, Worth: withEnd(f.Worth), Needed: f.Rescues, Proven: !f.Stopped}
		d.Most = withEnd(f.Most)
		if f.Profile.Grade.Set {
			g := hundredths(f.Profile.Grade.V)
			d.Grade = &g
		}
		doc.Finds = append(doc.Finds, d)
	}
	for i := range h.Leads {
		l := &h.Leads[i]
		d := leadDoc{
			Piece:   plan.PieceName(st, l.Piece),
			Slot:    st.Slots[l.Slot].ID,
			Reserve: l.Reserve,
			Given:   l.Given,
			Worth:   l.Worth,
			Needed:  l.Needed,
			Proven:  !l.Unproven,
		}
		d.Most = withEnd(l.Most)
		if l.HasLast {
			d.LastDay = &l.LastDay
			d.LastOn = onDate(st, l.LastDay)
		}
		doc.Leads = append(doc.Leads, d)
	}
	for _, t := range ask.Tours(st, h) {
		f := &h.Finds[t.Find]
		d := tourDoc{Find: t.Find, Expects: known(t.Expects, t.Known), Slot: st.Slots[f.Slot].ID,
			Profile: f.Profile.Name, Worth: withEnd(f.Worth)}
		for _, try := range t.Tries {
			a := &st.Avenues[try.Avenue]
			d.Tries = append(d.Tries, tryDoc{a.ID, a.Where, a.Cost, millionths(a.Chance), a.Likely, try.Reserve})
		}
		doc.Tours = append(doc.Tours, d)
	}
	for _, p := range h.Pairs {
		a, b := &h.Finds[p.A], &h.Finds[p.B]
		doc.Pairs = append(doc.Pairs, pairDoc{[2]int{p.A, p.B}, p.Together, a.Worth + b.Worth, withEnd(p.Most),
			withEnd(a.Most + b.Most)})
	}
	return toJSON(doc)
}

// withEnd is a sum that has an end; null where none is known.
func withEnd(v catalog.Cents) *catalog.Cents { return known(v, v < catalog.Cents(catalog.MaxSum)) }
