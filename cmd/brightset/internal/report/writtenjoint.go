package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// Written says which sheets of several jobs were written, what each job pays and what is
// held back.
func (t *JointPapers) Written(files []string) string {
	text := Paragraph("", "", fmt.Sprintf("%d jobs of one shop: papers of plan %s, %s expected (%s)", len(t.Jobs),
		t.Plan.Fingerprint(), catalog.FormatMoney(t.Plan.Expected), t.Jobs[0].Plan.Of.Job.Currency))
	text += "\n" + list("Written:", files) + "\n" + paysTable(t.Plan)
	for j, p := range t.Jobs {
		if held := p.Held(); len(held) > 0 {
			text += "\n" + Paragraph("", "", fmt.Sprintf("Held back of job %d, on no order: %s. "+
				"Nobody has noted that they fit%s. "+
				"Try them on the object first, then type: brightset record fitted %s%s", j+1, join(held), p.andMates(),
				p.firstUntried(), p.typedJob()))
		}
	}
	text += "\n" + Paragraph("", "", "No price at which to stop, and no hunt list: what a piece is worth to jobs "+
		"that share is not looked for. For those of one job by itself: brightset orders JOB")
	return text + StoppedEarly(t.Early())
}

// Early says what was cut short.
func (t *JointPapers) Early() []string {
	all := []string{}
	if t.Plan.Status != plan.Optimal {
		all = append(all, fmt.Sprintf("the plan is not proven to be the cheapest, but at most %s above it",
			catalog.FormatMoney(t.Plan.Expected-t.Plan.Bound)))
	}
	for j, p := range t.Jobs {
		if p.Plan.Of.Quote.Given && p.Sums == nil {
			all = append(all, fmt.Sprintf("no quote to the owner of job %d: what to set aside is not known", j+1))
		}
	}
	return all
}

// jointWrittenDoc: the shares of each charge add up to its cents, and what the jobs pay to
// expected_cents.
type jointWrittenDoc struct {
	Format   int              `json:"format"`
	Currency string           `json:"currency"`
	Plan     string           `json:"plan"` // its fingerprint
	Expected catalog.Cents    `json:"expected_cents"`
	Files    []string         `json:"files"`
	Charges  []jointChargeDoc `json:"charges"`
	Jobs     []writtenJobDoc  `json:"jobs"`
	Early    []string         `json:"stopped_early"`
}

type writtenJobDoc struct {
	Job    string          `json:"job"`
	Title  string          `json:"title"`
	Lines  catalog.Cents   `json:"lines_cents"`
	Shared catalog.Cents   `json:"shared_cents"`
	Evened catalog.Cents   `json:"evened_cents"`
	Pays   catalog.Cents   `json:"pays_cents"`
	Outlay catalog.Cents   `json:"outlay_cents"` // if all goes well, with its shares and what is evened out
	Held   []string        `json:"held_back"`
	Try    []string        `json:"try_on"` // the slots in which to try on what waits for that
	Shares []accountRowDoc `json:"shares"` // what stands on the owner's statement
	Sum    catalog.Cents   `json:"shares_sum_cents"`
	Alone  catalog.Cents   `json:"by_itself_sum_cents"`
}

type accountRowDoc struct {
	Kind   string        `json:"kind"` // "work" on its pieces in a lot; else as in charges
	Of     string        `json:"of"`
	Jobs   int           `json:"jobs"`
	Pieces int           `json:"pieces"`
	OfAll  int           `json:"of_pieces"`
	Whole  catalog.Cents `json:"cents"`
	Share  catalog.Cents `json:"share_cents"`
	Single catalog.Cents `json:"by_itself_cents"`
}

// WrittenJSON says the same as one JSON document.
func (t *JointPapers) WrittenJSON(files []string) (string, error) {
	doc := jointWrittenDoc{Format: Format, Currency: t.Jobs[0].Plan.Of.Job.Currency, Plan: t.Plan.Fingerprint(),
		Expected: t.Plan.Expected, Files: files, Charges: jointChargeDocs(t.Plan), Early: t.Early()}
	for j, p := range t.Jobs {
		job := &t.Plan.Jobs[j]
		a := paper.AccountOf(t.Plan, j)
		d := writtenJobDoc{job.State.Job.File, job.State.Job.Title, job.Lines, job.Shared, job.Evened, job.Pays,
			paper.Owed(t.Plan, j).Outlay, p.Held(), p.tryOn(), []accountRowDoc{}, a.Total, a.Alone}
		for _, r := range a.Rows {
			kind := string(r.Kind)
			if kind == "" {
				kind = "work"
			}
			d.Shares = append(d.Shares, accountRowDoc{kind, r.ID, r.Jobs, r.Pieces, r.OfAll, r.Whole, r.Share, r.Single})
		}
		doc.Jobs = append(doc.Jobs, d)
	}
	return toJSON(doc)
}
