package report

import (
	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
)

type recordedDoc struct {
	Format   int            `json:"format"`
	Entry    int            `json:"entry"`
	Text     string         `json:"text"`
	Spent    catalog.Cents  `json:"spent_cents"`
	Budget   *catalog.Cents `json:"budget_cents"` // what is spent included
	By       catalog.Cents  `json:"spent_by_this_cents"`
	For      []spentDoc     `json:"spent_for"`
	Pieces   []movedDoc     `json:"pieces"`      // that are elsewhere or further than before
	Rests    []restDoc      `json:"rests"`       // what is left of bags
	Joined   []string       `json:"joined_lots"` // lots on their way already that more was sent with: no freight again
	Warnings []string       `json:"warnings"`    // new ones
	// the first thing to do now; null where there is none, or none is certain
	Next  *actDoc  `json:"next"`
	Names namesDoc `json:"names"` // by the ids, which all else goes by
}

type spentDoc struct {
	For   string        `json:"for"`
	Cents catalog.Cents `json:"cents"`
}

type movedDoc struct {
	Piece string `json:"piece"`
	placeDoc
	Was placeDoc `json:"was"`
}

// placeDoc is how far a piece has come and where it is: at a plater's, or in a slot.
type placeDoc struct {
	Stage  string `json:"stage"`
	Plater string `json:"plater"`
	Slot   string `json:"slot"`
}

type restDoc struct {
	Piece    string `json:"piece"`
	Of       string `json:"of"`
	Quantity int    `json:"quantity"`
}

func placeOf(st *catalog.State, p *catalog.Piece) placeDoc {
	doc := placeDoc{Stage: p.Stage.String()}
	switch {
	case p.Elsewhere:
		doc.Stage = "on another job"
	case p.Stage == catalog.StageHung:
		doc.Slot = st.Slots[p.HungIn].ID
	case p.AtPlater():
		doc.Plater = st.Platers[p.Sent.Plater].ID
	}
	return doc
}

// RecordedJSON confirms as one JSON document. Without before, what it changes is not told.
func RecordedJSON(before, st *catalog.State, done Done) (string, error) {
	doc := recordedDoc{
		Format: Format, Entry: done.Entry, Text: done.Text, Spent: st.Job.SpentSum, For: []spentDoc{}, Pieces: []movedDoc{},
		Rests: []restDoc{}, Joined: []string{}, Warnings: []string{}, Names: namesOf(st),
	}
	if done.Next != nil && len(done.Next.Acts) > 0 {
		act := actOf(st, &done.Next.Acts[0])
		doc.Next = &act
	}
	if st.Job.Budget.Set {
		whole := st.Job.Budget.V + st.Job.SpentSum
		doc.Budget = &whole
	}
	if before == nil {
		return toJSON(doc)
	}
	news := catalog.NewsOf(before, st, done.Entry)
	doc.By = news.Cents
	for _, s := range news.Spent {
		doc.For = append(doc.For, spentDoc{s.For, s.Cents})
	}
	for _, n := range news.Pieces {
		p, name := &st.Pieces[n.Piece], st.PieceLabel(n.Piece)
		if n.Rest {
			doc.Rests = append(doc.Rests, restDoc{name, n.Was.ID, p.Quantity})
		} else {
			doc.Pieces = append(doc.Pieces, movedDoc{name, placeOf(st, p), placeOf(before, n.Was)})
		}
	}
	for _, j := range news.Joined {
		doc.Joined = append(doc.Joined, j.Lot)
	}
	for _, w := range news.Warnings {
		doc.Warnings = append(doc.Warnings, warningText(w))
	}
	doc.Warnings = append(doc.Warnings, freightLeftOut(before, st, &news, done.Entry)...)
	doc.Warnings = append(doc.Warnings, stayed(st, &news, done.Next)...)
	return toJSON(doc)
}

type journalDoc struct {
	Format  int           `json:"format"`
	Title   string        `json:"title"`
	Spent   catalog.Cents `json:"spent_cents"`
	Entries []entryDoc    `json:"entries"`
}

type entryDoc struct {
	Entry   int              `json:"entry"`
	Day     string           `json:"day"`
	Action  event.Action     `json:"action"`
	Text    string           `json:"text"`
	About   []string         `json:"about"` // pieces, slots, bans, trades, or what was paid for
	Reason  string           `json:"reason"`
	Spent   catalog.Cents    `json:"spent_cents"` // by it
	Applies bool             `json:"applies"`     // else it counts for nothing: what it changes is not what it was
	Changes []journal.Change `json:"changes"`
}

// JournalJSON lists what was recorded as one JSON document.
func JournalJSON(st *catalog.State) (string, error) {
	doc := journalDoc{Format: Format, Title: st.Job.Title, Spent: st.Job.SpentSum, Entries: []entryDoc{}}
	if st.Record != nil {
		for i := range st.Record.Entries {
			e := &st.Record.Entries[i]
			doc.Entries = append(doc.Entries, entryDoc{e.Seq, e.Day().Format("2006-01-02"), e.Action, EntryText(e),
				unique(entryAbout(e)), e.Reason, catalog.SpentBy(e), !st.Record.Ignored[e.Seq], e.Changes})
		}
	}
	return toJSON(doc)
}
