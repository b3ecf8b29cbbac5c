package report

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// differenceDoc is a slot that one plan fills otherwise than another.
type differenceDoc struct {
	Slot    string        `json:"slot"`
	Reserve bool          `json:"in_reserve"` // only what is held in reserve differs
	Now     *choiceDoc    `json:"now"`        // null: nothing in reserve
	Was     *choiceDoc    `json:"was"`
	More    catalog.Cents `json:"more_cents"` // of the line
}

func differenceDocs(was, now *plan.Plan) []differenceDoc {
	docs := []differenceDoc{}
	for _, d := range plan.Differences(was, now) {
		doc := differenceDoc{Slot: was.Of.Slots[d.Slot].ID, Reserve: d.SameChoice(), More: d.Now.Expected - d.Was.Expected}
		if doc.Reserve {
			doc.Now, doc.Was = choiceOrNone(was, d.Now.Fallback), choiceOrNone(was, d.Was.Fallback)
		} else {
			doc.Now, doc.Was = choiceOrNone(was, d.Now.Choice), choiceOrNone(was, d.Was.Choice)
		}
		docs = append(docs, doc)
	}
	return docs
}

func choiceOrNone(p *plan.Plan, c *plan.Choice) *choiceDoc {
	if c == nil {
		return nil
	}
	doc := choiceOf(p.Of, c)
	return &doc
}

// restOf is what of the difference of two plans is not in the lines of the slots they
// fill by another choice: freights, least lots, bundles, credits and reserves.
func restOf(was, now *plan.Plan) catalog.Cents {
	rest := now.Expected - was.Expected
	for _, d := range plan.Differences(was, now) {
		if !d.SameChoice() {
			rest -= d.Now.Expected - d.Was.Expected
		}
	}
	return rest
}
