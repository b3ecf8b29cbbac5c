package report

import "brightset/model/plan"

// shiftDoc is a slot filled otherwise than the last plan had it.
type shiftDoc struct {
	Slot    string     `json:"slot"`
	Now     *choiceDoc `json:"now"`         // null: a rescue, or the slot is not in the job any more
	Was     *choiceDoc `json:"was"`         // null: a rescue, or the slot is new
	Reserve bool       `json:"in_reserve"`  // only what is held in reserve differs
	Again   bool       `json:"again"`       // as planned, but it came back without the work
	Cents   int64      `json:"again_cents"` // what that costs once more
	From    string     `json:"from"`        // the slot what hangs here now was planned for, "" for none
	To      string     `json:"to"`          // the slot where what was planned here hangs now, "" for none
	Text    string     `json:"text"`
	Because []int      `json:"because"` // entries of the journal; none: it follows from the rest
}

func shiftOf(p *plan.Plan, s *plan.PlanChange) shiftDoc {
	doc := shiftDoc{Slot: s.Slot, Reserve: s.Reserve, From: s.From, To: s.To, Text: shiftText(p.Of, s), Because: []int{}}
	if doc.Again = s.Again; s.Again {
		doc.Cents = int64(s.Now.Choice.Cash)
	}
	if s.Now != nil {
		now := s.Now.Choice
		if s.Reserve {
			now = s.Now.Fallback
		}
		doc.Now = choiceOrNone(p, now)
	}
	if s.Was != nil {
		was := &s.Was.KeptChoice
		if s.Reserve {
			was = s.Was.Fallback
		}
		if was != nil {
			doc.Was = &choiceDoc{Piece: keptName(was), Work: was.Work, Plater: was.Plater, Level: was.Level}
		}
	}
	return doc
}
