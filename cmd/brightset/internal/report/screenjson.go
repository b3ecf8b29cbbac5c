package report

import (
	"brightset/catalog"
	"brightset/model/paper"
	"brightset/model/plan"
)

// actDoc is one thing to do now. What doesn't apply is empty.
type actDoc struct {
	Act    string        `json:"act"`
	Plater string        `json:"plater"`
	Maker  string        `json:"maker"`
	Vendor string        `json:"vendor"`
	Trade  string        `json:"trade"`
	With   string        `json:"with"` // his name
	Get    string        `json:"get"`  // the piece that comes in by a trade
	Pieces []string      `json:"pieces"`
	Names  []string      `json:"names"`
	Slots  []string      `json:"slots"`
	Count  int           `json:"count"`
	Cents  catalog.Cents `json:"cents"`
	Credit catalog.Cents `json:"credit_cents"`
	Guess  bool          `json:"guess"` // the sum is nobody's quote: ask for firm prices first
}

// actWords are the acts' words in the document.
var actWords = map[paper.ActKind]string{
	paper.ActStop: "stop", paper.ActApprove: "approve", paper.ActPause: "wait", paper.ActChase: "call",
	paper.ActRecall: "take-back",
	paper.ActFetch:  "fetch", paper.ActShelve: "keep-dry", paper.ActTryOn: "try-on", paper.ActBuyFirst: "buy",
	paper.ActMake:  "to-maker",
	paper.ActBench: "own-work", paper.ActSend: "send", paper.ActBuy: "buy", paper.ActTrade: "trade",
	paper.ActHold: "hold", paper.ActHang: "hang",
}

// concernDoc is one thing to look at.
type concernDoc struct {
	About  string        `json:"about"`
	Slots  []string      `json:"slots"`
	Names  []string      `json:"names"`
	Match  string        `json:"match"`
	Chance float64       `json:"chance"`
	Cents  catalog.Cents `json:"cents"`
	Days   int           `json:"days"`
	Text   string        `json:"text"`
}

var concernWords = map[paper.ConcernKind]string{
	paper.ConcernIgnored: "not-applied", paper.ConcernUnpriced: "no-price", paper.ConcernBags: "bags",
	paper.ConcernBudget: "budget", paper.ConcernOwner: "owner-quote", paper.ConcernDate: "date",
	paper.ConcernPairSplit: "pair-split", paper.ConcernShared: "one-spare", paper.ConcernIrreplaced: "no-reserve",
	paper.ConcernGuess: "guess",
}

// screen adds what the first screen says besides the plan.
func (doc *planDoc) screen(p *plan.Plan, s *Screen) {
	st, o := p.Of, &s.Outlook
	if o.Nine > 0 {
		nine := o.Nine + st.Job.SpentSum
		doc.NineInTen = &nine
	}
	if o.Days > 0 {
		doc.NineDays, doc.NineDate = &o.Days, onDate(st, o.Days)
	}
	if o.Owner > 0 {
		doc.OwnerPays = &o.Owner
	}
	low := &st.Slots[lowest(p).Slot]
	doc.Lowest, doc.LowestName = low.ID, low.Name
	if st.Job.WithinDays.Set {
		doc.Wanted = onDate(st, st.Job.WithinDays.V)
	}
	for i := range s.Acts {
		doc.DoNow = append(doc.DoNow, actOf(st, &s.Acts[i]))
	}
	all := paper.Concerns(p, *o)
	for i := range all {
		doc.LookAt = append(doc.LookAt, concernOf(p, &all[i]))
	}
}

func concernOf(p *plan.Plan, c *paper.Concern) concernDoc {
	one := concernDoc{About: concernWords[c.Kind], Slots: []string{}, Names: []string{}, Chance: millionths(c.Chance),
		Cents: c.Cents, Days: c.Days, Text: concernText(p, c)}
	if c.Kind == paper.ConcernPairSplit {
		one.Match = p.Of.Matches[c.Match].ID
	}
	for _, slot := range c.Slots {
		one.Slots, one.Names = append(one.Slots, p.Of.Slots[slot].ID), append(one.Names, p.Of.Slots[slot].Name)
	}
	return one
}

func actOf(st *catalog.State, a *paper.Act) actDoc {
	doc := actDoc{Act: actWords[a.Kind], Count: a.Count, Cents: a.Cents, Guess: a.Guess,
		Pieces: []string{}, Names: []string{}, Slots: []string{}}
	switch {
	case a.Plater != catalog.None:
		doc.Plater, doc.With = st.Platers[a.Plater].ID, st.Platers[a.Plater].Name
	case a.Maker != catalog.None:
		doc.Maker, doc.With = st.Makers[a.Maker].ID, st.Makers[a.Maker].Name
	case a.Vendor != catalog.None:
		doc.Vendor, doc.With = st.Vendors[a.Vendor].ID, st.Vendors[a.Vendor].Name
	case a.Trade != catalog.None:
		t := &st.Trades[a.Trade]
		doc.Trade, doc.Get, doc.Credit = t.ID, st.PieceLabel(t.Get), t.Credit
	}
	for k, i := range a.Pieces {
		name := st.Pieces[i].Name
		if slot := a.For[k]; slot != catalog.None {
			name = st.Slots[slot].Name
		}
		doc.Pieces, doc.Names = append(doc.Pieces, st.PieceLabel(i)), append(doc.Names, name)
	}
	for _, s := range a.Slots {
		doc.Slots = append(doc.Slots, st.Slots[s].ID)
	}
	return doc
}
