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
	Format     int              `json:"format"`
	Status     string           `json:"status"` // optimal, infeasible, stopped
	Stop       string           `json:"stop"`
	Currency   string           `json:"currency"`
	Expected   *catalog.Cents   `json:"expected_cents"`
	Bound      *catalog.Cents   `json:"bound_cents"`
	Capped     string           `json:"nobody_pays_more_than"` // alone, apart, none
	Seconds    float64          `json:"seconds"`
	Jobs       []jointJobDoc    `json:"jobs"`
	Charges    []jointChargeDoc `json:"charges"`
	Wanted     []worthDoc       `json:"wanted_by_more"`
	Short      []string         `json:"more_of_one_would_do"` // where there is no plan
	ShortWhole *bool            `json:"more_of_one_whole"`    // every piece was looked at for that; null where it was not looked for
}

type jointJobDoc struct {
	Job         string         `json:"job"`
	Title       string         `json:"title"`
	AloneStatus string         `json:"alone_status"`
	Alone       *catalog.Cents `json:"alone_cents"`
	Apart       *catalog.Cents `json:"apart_cents"` // alone with the stock shared out, where that was looked for
	LinesSum    catalog.Cents  `json:"lines_cents"`
	Shared      catalog.Cents  `json:"shared_cents"`
	Evened      catalog.Cents  `json:"evened_cents"`
	Pays        *catalog.Cents `json:"pays_cents"` // null where there is no plan, and nothing above it counts
	Grade       float64        `json:"grade"`
	Completion  float64        `json:"completion"`
	Lines       []lineDoc      `json:"lines"`
	Trades      []chargeDoc    `json:"trades"`
	Warnings    []string       `json:"warnings"`
}

type jointChargeDoc struct {
	Kind   string          `json:"kind"`
	Of     string          `json:"of"`
	Cents  catalog.Cents   `json:"cents"`
	Single []catalog.Cents `json:"by_itself_cents"` // per job
	Shares []catalog.Cents `json:"shares_cents"`    // per job
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
	doc.Expected, doc.Bound = &out.Expected, &out.Bound
	for j := range out.Jobs {
		job, d := &out.Jobs[j], &doc.Jobs[j]
		d.LinesSum, d.Shared, d.Evened, d.Pays = job.Lines, job.Shared, job.Evened, &job.Pays
		d.Grade, d.Completion = finite(job.Plan.Grade), finite(job.Plan.Completion)
		d.Lines, d.Warnings = lineDocs(job.State, job.Plan), planWarnings(job.State, job.Plan)
		for _, c := range chargeDocs(job.State, job.Plan) {
			if c.Kind == string(plan.ChargeTrade) {
				d.Trades = append(d.Trades, c)
			}
		}
		if job.Apart != nil {
			d.Apart = &job.Apart.Expected
		}
	}
	for _, c := range out.Charges {
		doc.Charges = append(doc.Charges, jointChargeDoc{string(c.Kind), c.ID, c.Cents, c.Single, c.Shares})
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
	return toJSON(doc)
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
	doc := &jointDoc{Format: Format, Status: out.Status.String(), Stop: out.Stop.String(), Currency: out.Jobs[0].State.Job.Currency,
		Capped: [...]string{"alone", "apart", "none"}[out.Capped], Seconds: finite(out.Result.Time.Seconds()),
		Charges: []jointChargeDoc{}, Wanted: []worthDoc{}, Short: []string{}}
	for j := range out.Jobs {
		job := &out.Jobs[j]
		d := jointJobDoc{Job: job.State.Job.File, Title: job.State.Job.Title, AloneStatus: job.Alone.Status.String(),
			Lines: []lineDoc{}, Trades: []chargeDoc{}, Warnings: []string{}}
		if job.Alone.Has && job.Alone.Status != solver.Infeasible {
			d.Alone = &job.Alone.Expected
		}
		doc.Jobs = append(doc.Jobs, d)
	}
	return doc
}
