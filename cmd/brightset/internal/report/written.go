package report

import (
	"fmt"

	"brightset/catalog"
	"brightset/model/plan"
	"brightset/solver"
)

// Written says which sheets were written, what they are of, and what is held back.
func Written(p *Papers, files []string) string {
	st := p.Plan.Of
	text := Paragraph("", "", fmt.Sprintf("%s: papers of plan %s, %s expected, %s if all goes well (%s)",
		st.Job.Title, plan.Fingerprint(p.Plan), catalog.FormatMoney(p.Plan.Expected), catalog.FormatMoney(p.Plan.Outlay),
		st.Job.Currency))
	if p.Plan.Stop == solver.CloseEnough {
		text += Paragraph("", "", closeEnough(p.Plan.Expected-p.Plan.Bound))
	}
	text += ignoredWarning(st) + "\n" + list("Written:", files)
	if held := p.Held(); len(held) > 0 {
		text += "\n" + Paragraph("", "",
			fmt.Sprintf("Held back, on no order: %s. Nobody has noted that they fit%s. "+
				"Try them on the object first, then type: brightset record fitted %s; "+
				"or send them all the same: brightset orders --unfitted WHY",
				join(held), p.andMates(), p.firstUntried()))
	}
	if !st.Quote.Given {
		text += "\n" + Paragraph("", "", "No quote to the owner: neither file has a table [quote].")
	}
	return text + StoppedEarly(p.Early())
}

type writtenDoc struct {
	Format   int           `json:"format"`
	Title    string        `json:"title"`
	Currency string        `json:"currency"`
	Plan     string        `json:"plan"` // its fingerprint
	Expected catalog.Cents `json:"expected_cents"`
	Outlay   catalog.Cents `json:"outlay_cents"`
	Files    []string      `json:"files"`
	Held     []string      `json:"held_back"`
	Try      []string      `json:"try_on"`        // the slots in which to try on what waits for that
	Early    []string      `json:"stopped_early"` // what was cut short; none: all was worked out to the end
}

// WrittenJSON says the same as one JSON document; early is what was cut short.
func WrittenJSON(p *Papers, files, early []string) (string, error) {
	job := &p.Plan.Of.Job
	return toJSON(writtenDoc{Format, job.Title, job.Currency, plan.Fingerprint(p.Plan), p.Plan.Expected, p.Plan.Outlay,
		files, p.Held(), p.tryOn(), append([]string{}, early...)})
}
