package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
)

// bindingsText lists the locks and bans, each with what it costs today; "" where
// there are none.
func bindingsText(st *catalog.State, all []ask.Binding) string {
	var items []string
	for i := range all {
		b := &all[i]
		items = append(items, bindingHead(st, b)+": "+bindingCost(b))
	}
	return list("Locks and bans:", items)
}

// bindingHead says what is locked or banned, and the user's reason.
func bindingHead(st *catalog.State, b *ask.Binding) string {
	var head, reason string
	switch {
	case b.Lock != catalog.None:
		l := &st.Locks[b.Lock]
		head, reason = fmt.Sprintf("lock on %s, %s", st.Slots[l.Slot].Name, filterText(st, &l.Filter, false)), l.Reason
	case b.Ban != catalog.None:
		n := &st.Bans[b.Ban]
		head, reason = fmt.Sprintf("ban %q, %s", n.ID, filterText(st, &n.Filter, true)), n.Reason
	default:
		return "all of them together"
	}
	if reason != "" {
		head += fmt.Sprintf(" (%s)", reason)
	}
	return head
}

// filterText says in words which choices a lock or ban speaks of.
func filterText(st *catalog.State, f *catalog.Filter, slot bool) string {
	var text []string
	if f.Piece != catalog.None {
		text = append(text, plan.PieceCalled(st, f.Piece))
	}
	if way := plan.WayOf(st, f.Work, f.Plater, f.Level); way != "" {
		text = append(text, strings.TrimPrefix(way, ", "))
	}
	if slot && f.Slot != catalog.None {
		text = append(text, "for "+st.Slots[f.Slot].Name)
	}
	if len(text) == 0 {
		return "anything"
	}
	return strings.Join(text, " ")
}

func bindingCost(b *ask.Binding) string {
	atLeast, it := "", "it"
	if b.Lock == catalog.None && b.Ban == catalog.None {
		it = "them"
	}
	if !b.Proven {
		atLeast = "at least "
	}
	switch {
	case !b.Looked:
		return "not looked at"
	case b.Gain > 0:
		text := fmt.Sprintf("without %s the finish would gain %s%.2f points", it, atLeast, b.Gain)
		if b.Costs != 0 {
			text += ", for " + moreOrLess(-b.Costs)
		}
		return text
	case b.Costs > 0:
		return "costs " + atLeast + catalog.FormatMoney(b.Costs) + " today"
	case !b.Proven:
		return "nothing better found without " + it + ", but not proven"
	}
	return "costs nothing today"
}

type bindingDoc struct {
	Kind    string         `json:"kind"` // lock, ban; all: all of them together
	ID      string         `json:"id"`   // of a lock its slot
	Reason  string         `json:"reason"`
	On      filterDoc      `json:"on"`          // what is locked or banned; "" for any
	Status  string         `json:"status"`      // optimal: proven; stopped: it may cost more; not-looked-at
	Costs   *catalog.Cents `json:"costs_cents"` // null where not looked at
	Gain    *float64       `json:"costs_grade"` // with the best finish: the mean it would gain
	Changed []string       `json:"changed"`     // slots filled otherwise without it
}

// filterDoc says which choices a lock or ban speaks of.
type filterDoc struct {
	Slot   string `json:"slot"`
	Piece  string `json:"piece"`
	Work   string `json:"work"`
	Plater string `json:"plater"`
	Level  string `json:"level"`
}

func filterOf(st *catalog.State, f *catalog.Filter) filterDoc {
	doc := filterDoc{Work: f.Work, Level: f.Level}
	if f.Slot != catalog.None {
		doc.Slot = st.Slots[f.Slot].ID
	}
	if f.Piece != catalog.None {
		doc.Piece = plan.PieceName(st, f.Piece)
	}
	if f.Plater != catalog.None {
		doc.Plater = st.Platers[f.Plater].ID
	}
	return doc
}

func bindingDocs(p *plan.Plan, all []ask.Binding) []bindingDoc {
	docs := []bindingDoc{}
	for i := range all {
		b := &all[i]
		d := bindingDoc{Kind: "all", Status: "not-looked-at", Changed: []string{}}
		switch {
		case b.Lock != catalog.None:
			d.Kind, d.ID, d.Reason = "lock", p.Of.Slots[p.Of.Locks[b.Lock].Slot].ID, p.Of.Locks[b.Lock].Reason
			d.On = filterOf(p.Of, &p.Of.Locks[b.Lock].Filter)
		case b.Ban != catalog.None:
			d.Kind, d.ID, d.Reason = "ban", p.Of.Bans[b.Ban].ID, p.Of.Bans[b.Ban].Reason
			d.On = filterOf(p.Of, &p.Of.Bans[b.Ban].Filter)
		}
		if b.Looked {
			d.Costs, d.Status = &b.Costs, "stopped"
			if b.Proven {
				d.Status = "optimal"
			}
			if p.Best {
				gain := finite(b.Gain)
				d.Gain = &gain
			}
		}
		if b.Plan != nil {
			d.Changed = changedSlots(p, b.Plan)
		}
		docs = append(docs, d)
	}
	return docs
}

// changedSlots are the slots whose planned choice differs.
func changedSlots(was, now *plan.Plan) []string {
	ids := []string{}
	for _, d := range plan.Differences(was, now) {
		if !d.SameChoice() {
			ids = append(ids, was.Of.Slots[d.Slot].ID)
		}
	}
	return ids
}
