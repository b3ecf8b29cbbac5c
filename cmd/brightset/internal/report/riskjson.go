package report

import (
	"brightset/catalog"
	"brightset/model/risk"
)

type riskDoc struct {
	Format    int            `json:"format"`
	Title     string         `json:"title"`
	Status    string         `json:"status"` // of the plan
	Currency  string         `json:"currency"`
	Outlay    catalog.Cents  `json:"outlay_cents"`
	Expected  catalog.Cents  `json:"expected_cents"`
	Cash      quantilesDoc   `json:"cash"`
	Spent     []spentAtDoc   `json:"cash_distribution"` // a few points of it, in rising order
	Asked     askedDoc       `json:"asked"`
	Already   catalog.Cents  `json:"spent_cents"`    // before the plan: cash comes on top
	Simulated *quantilesDoc  `json:"simulated_cash"` // null, like the next two: time was up before any run was done
	Replanned *quantilesDoc  `json:"replanned_cash"`
	Spared    *catalog.Cents `json:"deciding_again_saves_cents"` // on average, against holding each spare for one slot
	AsPlanned catalog.Cents  `json:"contingency_planned_cents"`  // above the outlay, for nine in ten, prices as planned
	// above the outlay, for nine in ten, estimates off as well
	Contingency *catalog.Cents `json:"contingency_cents"`
	Runs        int            `json:"runs"`
	RunsWhole   bool           `json:"runs_whole"` // as many as there should be
	Coarse      bool           `json:"coarse"`     // time was up: sums and chances are told by coarse steps
	Step        catalog.Cents  `json:"cash_step_cents"`
	Off         catalog.Cents  `json:"cash_off_cents"` // no sum of cash is off by more
	InBudget    float64        `json:"in_budget"`      // at least
	BudgetMost  float64        `json:"in_budget_most"` // the same where it is exact
	InTime      float64        `json:"in_time"`
	Days50      int            `json:"days_p50"`
	Days90      int            `json:"days_p90"`
	Grade50     float64        `json:"grade_p50"` // mean of the set, reached by half, by nine in ten
	Grade90     float64        `json:"grade_p90"`
	GradeOff    float64        `json:"grade_off"`    // neither is off by more; 0 where exact
	AsAsked     float64        `json:"mean_reached"` // chance that the mean is as asked for, at least
	AskedMost   float64        `json:"mean_reached_most"`
	Rescue      float64        `json:"rescue"`
	Slots       []slotRiskDoc  `json:"slots"`
	Lots        []lotRiskDoc   `json:"lots"`
	FindOut     []findOutDoc   `json:"find_out"`
	FoundAll    bool           `json:"find_out_whole"` // it was asked for, and everything open was looked at
	Names       namesDoc       `json:"names"`          // by the ids, which all else goes by
}

type quantilesDoc struct {
	P10  catalog.Cents `json:"p10_cents"`
	P50  catalog.Cents `json:"p50_cents"`
	P90  catalog.Cents `json:"p90_cents"`
	Mean catalog.Cents `json:"mean_cents"`
}

// spentAtDoc is one point of the distribution of what is spent.
type spentAtDoc struct {
	Cents  catalog.Cents `json:"cents"`
	Chance float64       `json:"chance"` // that it is this, or above the point before
	Within float64       `json:"within"` // that it is this or less
}

// mostPoints is how many points of a distribution are told.
const mostPoints = 100

// spentAt thins a distribution out: sums are put together in steps so wide that few are
// left, each told by the highest sum of its step, so that what is within it is exact.
func spentAt(d *risk.Distribution) []spentAtDoc {
	docs := []spentAtDoc{}
	for _, p := range d.Points(mostPoints) {
		docs = append(docs, spentAtDoc{p.Cents, p.Chance, min(1, p.Within)})
	}
	return docs
}

type slotRiskDoc struct {
	Slot  string        `json:"slot"`
	Fails float64       `json:"fails"`
	Share float64       `json:"share"` // of the variance
	Worst catalog.Cents `json:"worst_cents"`
}

type lotRiskDoc struct {
	Plater string        `json:"plater"`
	Slots  int           `json:"slots"`
	Bare   int           `json:"bare"`
	More   catalog.Cents `json:"more_cents"`
}

// RiskJSON writes the answer of risk as one JSON document.
func RiskJSON(r *risk.Risk, s *risk.Simulation, f *Unknown) (string, error) {
	st := r.Plan.Of
	runs := func(v []catalog.Cents) *quantilesDoc {
		if len(v) == 0 {
			return nil
		}
		return &quantilesDoc{risk.Quantile(v, 0.1), risk.Quantile(v, 0.5), risk.Quantile(v, 0.9), mean(v)}
	}
	doc := riskDoc{Format: Format, Title: st.Job.Title, Asked: askedOf(st, r.Plan), Already: st.Job.SpentSum,
		Names:  namesOf(st),
		Status: r.Plan.Status.String(), Currency: st.Job.Currency, Outlay: r.Plan.Outlay, Expected: r.Plan.Expected,
		Cash: quantilesDoc{r.Cash.Quantile(0.1), r.Cash.Quantile(0.5), r.Cash.Quantile(0.9),
			catalog.Cents(r.Cash.Mean() + 0.5)}, Spent: spentAt(r.Cash),
		AsPlanned: max(0, r.Cash.Quantile(0.9)-r.Plan.Outlay),
		Simulated: runs(s.Cash), Replanned: runs(s.Replan),
		Runs: s.Runs, RunsWhole: s.Whole(), Coarse: r.Coarse, Step: r.Cash.Step, Off: r.Cash.Off,
		InBudget: r.Budget.Least, BudgetMost: r.Budget.Most, InTime: r.InTime, Days50: r.Days(0.5), Days90: r.Days(0.9),
		Grade50: r.Grade(0.5), Grade90: r.Grade(0.9), GradeOff: r.GradeOff(),
		AsAsked: r.Mean.Least, AskedMost: r.Mean.Most, Rescue: r.Rescues, Slots: []slotRiskDoc{}, Lots: []lotRiskDoc{}}
	if s.Runs > 0 {
		c := max(0, risk.Quantile(s.Cash, 0.9)-r.Plan.Outlay)
		doc.Contingency = &c
		spared := max(0, mean(s.Cash)-mean(s.Replan))
		doc.Spared = &spared
	}
	if f == nil {
		f = &Unknown{}
	}
	doc.FoundAll = f.Whole
	doc.FindOut = findOutDocs(st, f)
	for _, k := range r.Slots {
		doc.Slots = append(doc.Slots, slotRiskDoc{st.Slots[k.Slot].ID, k.Fails, finite(k.Share), k.Worst})
	}
	for _, l := range r.Lots {
		doc.Lots = append(doc.Lots, lotRiskDoc{st.Platers[l.Plater].ID, l.Slots, l.Bare, l.More})
	}
	return toJSON(doc)
}
