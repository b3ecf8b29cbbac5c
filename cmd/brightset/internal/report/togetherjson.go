package report

import (
	"brightset/catalog"
	"brightset/model/joint"
	"brightset/model/plan"
	"brightset/solver"
)

// jointDoc is the answer of plan for several jobs. The lines, trades and shares of a job
// and what it is evened out by add up to pays_cents, and these to expected_cents.
type jointDoc struct {
	Format   int              `json:"format"`
	Status   string           `json:"status"` // optimal, infeasible, stopped
	Stop     string           `json:"stop"`
	Currency string           `json:"currency"`
	Expected *catalog.Cents   `json:"expected_cents"`
	Bound    *catalog.Cents   `json:"bound_cents"`
	Above    *catalog.Cents   `json:"above_bound_cents"`     // it is at most so much above the cheapest
	Sums     *jointSumsDoc    `json:"sums"`                  // of all jobs; null where there is no plan
	Capped   string           `json:"nobody_pays_more_than"` // alone, apart, none
	Seconds  float64          `json:"seconds"`
	Jobs     []jointJobDoc    `json:"jobs"`
	Charges  []jointChargeDoc `json:"charges"`
	Wanted   []worthDoc       `json:"wanted_by_more"`
	Starting []startingDoc    `json:"starting_values"`
	Warnings []string         `json:"warnings"`             // about what the jobs have in common
	Slots    int              `json:"slots"`                // of all jobs
	DoNow    []jointActDoc    `json:"do_now"`               // in an order that works
	LookAt   []jointConcDoc   `json:"look_at"`              // the weightiest kind first
	Short    []string         `json:"more_of_one_would_do"` // where there is no plan
	// every piece was looked at for that; null where it was not looked for
	ShortWhole *bool `json:"more_of_one_whole"`
}

// jointSumsDoc adds up what stands job by job. What is alone and saved is null where one
// of the jobs' plans alone is not known.
type jointSumsDoc struct {
	Lines  catalog.Cents  `json:"lines_cents"`
	Outlay catalog.Cents  `json:"outlay_cents"` // with what they share once
	Shared catalog.Cents  `json:"shared_cents"`
	Apart  *catalog.Cents `json:"apart_cents"`
	Alone  *catalog.Cents `json:"alone_cents"`
	Saves  *catalog.Cents `json:"saves_cents"`
	Single catalog.Cents  `json:"charges_by_itself_cents"`
}

type jointJobDoc struct {
	Job         string         `json:"job"`
	Title       string         `json:"title"`
	AloneStatus string         `json:"alone_status"`
	Alone       *catalog.Cents `json:"alone_cents"`
	AloneAbove  *catalog.Cents `json:"alone_above_bound_cents"` // null where it is proven
	// alone with the stock shared out, where that was looked for
	Apart      *catalog.Cents `json:"apart_cents"`
	LinesSum   catalog.Cents  `json:"lines_cents"`
	Shared     catalog.Cents  `json:"shared_cents"`
	Evened     catalog.Cents  `json:"evened_cents"`
	Outlay     catalog.Cents  `json:"outlay_cents"`             // of lines and trades
	Saves      *catalog.Cents `json:"saves_cents"`              // against apart, else alone
	OverBudget *catalog.Cents `json:"evened_over_budget_cents"` // by which evening out could exceed the budget; null: not
	Done       *doneDoc       `json:"done"`
	Asked      askedDoc       `json:"asked"`
	Pays       *catalog.Cents `json:"pays_cents"` // null where there is no plan, and nothing above it counts
	Grade      float64        `json:"grade"`
	Completion float64        `json:"completion"`
	Lines      []lineDoc      `json:"lines"`
	Trades     []chargeDoc    `json:"trades"`
	Warnings   []string       `json:"warnings"`
	Names      namesDoc       `json:"names"` // by the ids, which all else goes by
}

type jointChargeDoc struct {
	Kind   string          `json:"kind"`
	Of     string          `json:"of"`
	Cents  catalog.Cents   `json:"cents"`
	Single []catalog.Cents `json:"by_itself_cents"`      // per job
	Sum    catalog.Cents   `json:"each_by_itself_cents"` // of all jobs
	Shares []catalog.Cents `json:"shares_cents"`         // per job
}

type worthDoc struct {
	Piece string        `json:"piece"`
	To    []useDoc      `json:"goes_to"`
	Jobs  []jobWorthDoc `json:"jobs"` // whose plans alone use it
}

type useDoc struct {
	Job     string `json:"job"`
	Slot    string `json:"slot"`
	Reserve bool   `json:"in_reserve"`
}

type jobWorthDoc struct {
	Job   string         `json:"job"`
	Vital bool           `json:"vital"`
	Worth *catalog.Cents `json:"worth_cents"` // null where not looked for, or vital
}

// TogetherJSON writes what several jobs come to together as one JSON document.
func TogetherJSON(out *plan.Joint, worths []joint.Worth) (string, error) {
	doc := newJointDoc(out)
	above := out.Expected - out.Bound
	doc.Expected, doc.Bound, doc.Above, doc.Sums = &out.Expected, &out.Bound, &above, &jointSumsDoc{}
	notes := newNotes()
	for j := range out.Jobs {
		job, d := &out.Jobs[j], &doc.Jobs[j]
		d.LinesSum, d.Shared, d.Evened, d.Pays = job.Lines, job.Shared, job.Evened, &job.Pays
		d.Grade, d.Completion = finite(job.Plan.Grade), finite(job.Plan.Completion)
		d.Lines, d.Warnings = lineDocs(job.Plan), planWarnings(job.Plan)
		for _, c := range chargeDocs(job.Plan) {
			if c.Kind == string(plan.ChargeTrade) {
				d.Trades = append(d.Trades, c)
			}
		}
		if job.Apart != nil {
			d.Apart = &job.Apart.Expected
		}
		d.Outlay, d.Done, d.Saves, d.OverBudget = job.OwnOutlay(), doneOf(job.Plan), known(out.Saves(job)), overBudget(job)
		jobPart(out, j, notes)
		doc.Sums.add(out, job)
	}
	doc.Charges, doc.Sums.Outlay = jointChargeDocs(out), outlayTogether(out)
	doc.screen(out)
	for _, c := range doc.Charges {
		doc.Sums.Single += c.Sum
	}
	for _, w := range worths {
		one := worthDoc{Piece: w.ID, To: []useDoc{}, Jobs: []jobWorthDoc{}}
		for _, u := range w.To {
			st := out.Jobs[u.Job].State
			one.To = append(one.To, useDoc{st.Job.File, st.Slots[u.Slot].ID, u.Reserve})
		}
		for _, v := range w.Jobs {
			st := out.Jobs[v.Job].State
			d := jobWorthDoc{Job: st.Job.File, Vital: v.Vital}
			if v.Looked && !v.Vital {
				d.Worth = &v.Cents
			}
			one.Jobs = append(one.Jobs, d)
		}
		doc.Wanted = append(doc.Wanted, one)
	}
	if !aloneKnown(out) {
		doc.Sums.Alone, doc.Sums.Saves = nil, nil
	}
	doc.Starting = notes.docs()
	doc.Warnings = append(append(doc.Warnings, startWarnings(out)...), bundleWarnings(out)...)
	return toJSON(doc)
}

// jointChargeDocs are what is charged once for all jobs.
func jointChargeDocs(out *plan.Joint) []jointChargeDoc {
	all := []jointChargeDoc{}
	for _, c := range out.Charges {
		all = append(all, jointChargeDoc{string(c.Kind), c.ID, c.Cents, c.Single, c.Apart(), c.Shares})
	}
	return all
}

// add counts one job in.
func (s *jointSumsDoc) add(out *plan.Joint, job *plan.JointJob) {
	more := func(to **catalog.Cents, v catalog.Cents) {
		if *to == nil {
			*to = new(catalog.Cents)
		}
		**to += v
	}
	s.Lines += job.Lines
	s.Shared += job.Shared
	more(&s.Alone, job.Alone.Expected)
	if job.Apart != nil {
		more(&s.Apart, job.Apart.Expected)
	}
	if saves, known := out.Saves(job); known {
		more(&s.Saves, saves)
	}
}

// aloneKnown says whether every job's plan alone is.
func aloneKnown(out *plan.Joint) bool {
	for j := range out.Jobs {
		if !out.Jobs[j].Alone.Has {
			return false
		}
	}
	return true
}

// known is a sum, null where it is not known.
func known(v catalog.Cents, known bool) *catalog.Cents {
	if !known {
		return nil
	}
	return &v
}

// overBudget is null where the budget holds.
func overBudget(job *plan.JointJob) *catalog.Cents {
	over := job.OverBudget()
	return known(over, over > 0)
}

// NoneTogetherJSON says that there is no plan of all jobs.
func NoneTogetherJSON(out *plan.Joint, short []string, whole bool) (string, error) {
	doc := newJointDoc(out)
	doc.Capped = "none"
	doc.Short, doc.ShortWhole = append(doc.Short, short...), &whole
	return toJSON(doc)
}

// newJointDoc is what is known whether there is a plan or not.
func newJointDoc(out *plan.Joint) *jointDoc {
	doc := &jointDoc{Format: Format, Status: out.Status.String(), Stop: out.Stop.String(),
		Currency: out.Jobs[0].State.Job.Currency,
		Capped:   [...]string{"alone", "apart", "none"}[out.Capped], Seconds: finite(out.Result.Time.Seconds()),
		Charges: []jointChargeDoc{}, Starting: []startingDoc{}, Warnings: []string{}, Wanted: []worthDoc{}, Short: []string{},
		DoNow: []jointActDoc{}, LookAt: []jointConcDoc{}}
	for j := range out.Jobs {
		job := &out.Jobs[j]
		d := jointJobDoc{Names: namesOf(job.State), Asked: askedOf(job.State, nil),
			Job: job.State.Job.File, Title: job.State.Job.Title,
			AloneStatus: job.Alone.Status.String(),
			Lines:       []lineDoc{}, Trades: []chargeDoc{}, Warnings: []string{}}
		if job.Alone.Has && job.Alone.Status != solver.Infeasible {
			d.Alone = &job.Alone.Expected
			if above := job.Alone.Expected - job.Alone.Bound; job.Alone.Status != solver.Optimal {
				d.AloneAbove = &above
			}
		}
		doc.Jobs = append(doc.Jobs, d)
	}
	return doc
}
