package report

import (
	"time"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
)

// Format is the version of the JSON documents. It changes when a field changes
// its meaning or goes away; new fields may come at any time.
const Format = 1

// planDoc is the answer of plan. Sums and means are null where there is no plan.
type planDoc struct {
	Format       int            `json:"format"`
	Status       string         `json:"status"` // optimal, infeasible, stopped
	Stop         string         `json:"stop"`   // why the search ended
	Title        string         `json:"title"`
	Currency     string         `json:"currency"`
	Expected     *catalog.Cents `json:"expected_cents"`
	Bound        *catalog.Cents `json:"bound_cents"`
	Outlay       *catalog.Cents `json:"outlay_cents"`
	Keeps        catalog.Cents  `json:"keeps_cents"`       // worth to the owner that own pieces hang: no money, in no sum
	AboveBound   *catalog.Cents `json:"above_bound_cents"` // it is at most so much above the cheapest
	ExpectedAll  *catalog.Cents `json:"expected_with_spent_cents"`
	OutlayAll    *catalog.Cents `json:"outlay_with_spent_cents"`
	Asked        askedDoc       `json:"asked"` // of the set as a whole
	Done         *doneDoc       `json:"done"`  // when it is complete
	Grade        *float64       `json:"grade"`
	Completion   *float64       `json:"completion"`
	Seconds      float64        `json:"seconds"`
	Lines        []lineDoc      `json:"lines"`
	Charges      []chargeDoc    `json:"charges"`
	Lots         []lotDoc       `json:"lots"`     // what goes to which plater
	OwnWork      []workDoc      `json:"own_work"` // on the shop's own bench
	Makers       []workDoc      `json:"makers"`   // what they do
	ToBuy        []purchaseDoc  `json:"to_buy"`
	ToTrade      []tradeDoc     `json:"to_trade"`
	Held         []heldDoc      `json:"held"`      // in reserve
	LeftOver     []leftDoc      `json:"left_over"` // what the plan doesn't use
	Starting     []startingDoc  `json:"starting_values"`
	Warnings     []string       `json:"warnings"`
	Locks        []bindingDoc   `json:"locks"`  // locks and bans, with what each costs today
	Others       []otherDoc     `json:"others"` // where asked for
	Spent        catalog.Cents  `json:"spent_cents"`
	Day          int            `json:"day"`       // of the job, as of what was recorded last
	AsOf         string         `json:"as_of_day"` // in the calendar; "" where nothing was recorded
	UnderWay     []underWayDoc  `json:"under_way"` // pieces that are at platers, back, or hang
	Since        string         `json:"since"`     // the plan with which this one is compared; "" for none
	SinceDay     string         `json:"since_day"` // when that one was kept; "" for the first plan
	Changed      []shiftDoc     `json:"changed"`
	ChangedEarly bool           `json:"changed_unknown"` // time ran out before it was known what has changed
	// what is paid in nine of ten such jobs, spent sums included; null: not known
	NineInTen  *catalog.Cents `json:"nine_in_ten_cents"`
	NineDays   *int           `json:"nine_in_ten_days"`
	NineDate   string         `json:"nine_in_ten_date"`
	OwnerPays  *catalog.Cents `json:"owner_pays_cents"` // tax included; null where nothing is quoted
	Lowest     string         `json:"lowest_slot"`      // the slot that hangs least fine
	LowestName string         `json:"lowest_name"`
	Wanted     string         `json:"wanted_date"` // the last day allowed; "" for none, or where the start isn't known
	DoNow      []actDoc       `json:"do_now"`      // in an order that works
	LookAt     []concernDoc   `json:"look_at"`     // the weightiest first
	StripFirst []findOutDoc   `json:"strip_first"`
	StopPrices []stopDoc      `json:"stop_prices"`
	// every piece was looked at for both; null: they were not looked for
	StripWhole   *bool            `json:"strip_whole"`
	SharedSpares *sharedSparesDoc `json:"one_for_two,omitempty"` // where asked for
	Names        namesDoc         `json:"names"`                 // by the ids, which all else goes by
}

// stopDoc is the price after stripping, for one piece, above which to stop.
type stopDoc struct {
	Slot    string        `json:"slot"`
	Piece   string        `json:"piece"`
	Plater  string        `json:"plater"`
	Planned catalog.Cents `json:"planned_cents"`
	Highest catalog.Cents `json:"highest_cents"`
	// Where it is not proven it is highest_cents at least and this at most; null: no end is known.
	Most    *catalog.Cents `json:"highest_at_most_cents"`
	NoOther bool           `json:"no_other"`  // nothing else could hang there
	Budget  bool           `json:"by_budget"` // above it the budget is broken
}

// choiceDoc names a choice. Plater and level are empty unless it is plated.
type choiceDoc struct {
	Piece  string `json:"piece"`
	Work   string `json:"work"`
	Plater string `json:"plater"`
	Level  string `json:"level"`
}

type lineDoc struct {
	Slot string `json:"slot"`
	choiceDoc
	Expected catalog.Cents  `json:"expected_cents"` // what failing costs included
	Outlay   catalog.Cents  `json:"outlay_cents"`
	Off      bool           `json:"off"`         // the piece came off the object
	Keeps    catalog.Cents  `json:"keeps_cents"` // worth to the owner: no money
	Grade    float64        `json:"grade"`
	Tone     float64        `json:"tone"`
	Fresh    bool           `json:"fresh"`
	Redone   bool           `json:"redone"` // refinished by a plater
	Breakage float64        `json:"breakage"`
	Fails    float64        `json:"fails"`  // broken, refused or not come
	Chance   float64        `json:"chance"` // that the piece comes at all
	Misfit   float64        `json:"misfit"` // that it doesn't fit once it has come
	Days     int            `json:"days"`
	Rescue   *catalog.Cents `json:"rescue_cents"` // what filling the slot in a hurry costs; null where nothing can fail
	Fallback *fallbackDoc   `json:"fallback"`
	Rests    []string       `json:"rests_on"` // starting values
}

type chargeDoc struct {
	Kind  string        `json:"kind"`
	Of    string        `json:"of"`
	Cents catalog.Cents `json:"cents"` // negative for a trade
}

// PlanJSON writes a plan as one JSON document. Lines and charges add up to
// expected_cents.
func PlanJSON(p *plan.Plan, beside *Beside) (string, error) {
	doc := planDoc{
		Format: Format, Status: p.Status.String(), Stop: p.Stop.String(),
		Title: p.Of.Job.Title, Currency: p.Of.Job.Currency, Seconds: finite(p.Result.Time.Seconds()),
		Lines: []lineDoc{}, Charges: []chargeDoc{}, Warnings: planWarnings(p), Asked: askedOf(p.Of, p),
		Lots: []lotDoc{}, OwnWork: []workDoc{}, Makers: []workDoc{}, ToBuy: []purchaseDoc{}, ToTrade: []tradeDoc{},
		Held: []heldDoc{}, LeftOver: []leftDoc{}, Starting: []startingDoc{}, UnderWay: underWayDocs(p.Of),
		Locks: bindingDocs(p, beside.Bindings), Others: otherDocs(p, beside.Others), Names: namesOf(p.Of),
	}
	doc.Spent, doc.Day = p.Of.Job.SpentSum, p.Of.Job.Elapsed
	if !p.Of.Job.AsOf.IsZero() {
		doc.AsOf = p.Of.Job.AsOf.Format(time.DateOnly)
	}
	doc.DoNow, doc.LookAt = []actDoc{}, []concernDoc{}
	doc.Changed, doc.StripFirst, doc.StopPrices = []shiftDoc{}, []findOutDoc{}, []stopDoc{}
	doc.SharedSpares = sharedSparesOf(p, beside.HeldForOne)
	if p.Has {
		doc.beside(p, beside)
		grade, completion := finite(p.Grade), finite(p.Completion)
		doc.Expected, doc.Outlay, doc.Grade, doc.Completion = &p.Expected, &p.Outlay, &grade, &completion
		above, all, out := p.Expected-p.Bound, p.Expected+p.Of.Job.SpentSum, p.Outlay+p.Of.Job.SpentSum
		doc.AboveBound, doc.ExpectedAll, doc.OutlayAll, doc.Done = &above, &all, &out, doneOf(p)
		doc.Keeps = p.Keeps
		doc.Lines, doc.Charges = lineDocs(p), chargeDocs(p)
		doc.errands(p)
	}
	if p.Status != solver.Infeasible {
		doc.Bound = &p.Bound
	}
	return toJSON(doc)
}

// beside adds what stands beside a plan.
func (doc *planDoc) beside(p *plan.Plan, beside *Beside) {
	if doc.ChangedEarly = beside.Since != nil && beside.Since.Early; beside.Since != nil && !doc.ChangedEarly {
		doc.Since, doc.SinceDay = beside.Since.Called, beside.Since.Day
		shifts := plan.PlanChanges(beside.Since.Lines, beside.Since.Seq, p)
		for i := range shifts {
			one := shiftOf(p, &shifts[i])
			for _, e := range shifts[i].Because {
				one.Because = append(one.Because, e.Seq)
			}
			doc.Changed = append(doc.Changed, one)
		}
	}
	if beside.Screen != nil {
		doc.screen(p, beside.Screen)
	}
	if beside.Strip == nil {
		return
	}
	doc.StripWhole = &beside.Strip.Whole
	doc.StripFirst = findOutDocs(p.Of, &Unknown{All: beside.Strip.First})
	for _, s := range beside.Strip.Stop {
		d := stopDoc{p.Of.Slots[s.Slot].ID, p.NameOf(s.Choice), p.PlaterOf(s.Choice).ID, s.Planned, s.Highest, nil, s.NoOther,
			s.ByBudget}
		if s.Most < catalog.Cents(catalog.MaxSum) {
			d.Most = &s.Most
		}
		doc.StopPrices = append(doc.StopPrices, d)
	}
}

func lineDocs(p *plan.Plan) []lineDoc {
	docs := []lineDoc{}
	for i := range p.Lines {
		docs = append(docs, lineOf(p.Of, &p.Lines[i]))
	}
	return docs
}

func chargeDocs(p *plan.Plan) []chargeDoc {
	docs := []chargeDoc{}
	for _, c := range p.Charges {
		docs = append(docs, chargeDoc{string(c.Kind), chargeOf(p, c), c.Cents})
	}
	return docs
}

func lineOf(st *catalog.State, l *plan.Line) lineDoc {
	c := l.Choice
	doc := lineDoc{
		Slot: st.Slots[l.Slot].ID, choiceDoc: choiceOf(st, c), Expected: l.Expected, Outlay: c.Cash,
		Off: st.Pieces[c.Piece].Off, Keeps: l.Keeps,
		Grade: hundredths(c.Grade), Tone: hundredths(c.Tone), Fresh: c.Fresh, Redone: c.Redone,
		Breakage: millionths(c.Breakage), Fails: millionths(c.Fails), Days: c.Days, Chance: millionths(c.Chance),
		Misfit: millionths(c.Misfit),
		Rests:  []string{},
	}
	if c.Fails > 0 {
		doc.Rescue = &st.Slots[l.Slot].Rescue.V
	}
	for _, r := range choice.LineAssumptions(st, l) {
		doc.Rests = append(doc.Rests, string(r))
	}
	doc.Fallback = fallbackOf(st, l)
	return doc
}

func choiceOf(st *catalog.State, c *plan.Choice) choiceDoc {
	doc := choiceDoc{Piece: plan.PieceName(st, c.Piece), Work: c.Work, Level: c.Level}
	if c.Plated() {
		doc.Plater = st.Platers[c.Plater].ID
	}
	return doc
}

// chargeOf is the id of what a charge is for.
func chargeOf(p *plan.Plan, c plan.Charge) string {
	switch c.Kind {
	case plan.ChargeMinimum, plan.ChargePlaterFreight:
		return p.Of.Platers[c.Of].ID
	case plan.ChargeVendorFreight:
		return p.Of.Vendors[c.Of].ID
	case plan.ChargeBundle:
		return p.Of.Bundles[c.Of].ID
	}
	return p.Of.Trades[c.Of].ID
}
