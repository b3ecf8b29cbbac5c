package risk

import (
	"maps"
	"slices"
	"time"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// Experience is one piece that went to a plater and what came of it.
type Experience struct {
	Job, Piece, Metal, Work, Plater, Level string
	Agreed, Paid                           catalog.Cents // for one piece
	PaidKnown                              bool
	Named                                  bool          // Agreed is a price of the plater's, not our own estimate
	Guessed                                catalog.Cents // for one piece when it was sent; 0 if that was firm
	Promised, Took                         int           // days
	TookKnown                              bool
	GradePromised, Grade                   catalog.Centi
	GradeKnown                             bool
	Predicted                              float64 // chance of breaking on the built-in starting value of the metal
	PredictedRefused                       float64
	Broke, Refused                         bool
	Count                                  int // pieces it happened to, at least 1
}

// Experiences reads from a job's journal what came of every piece that was sent to a
// plater. What was taken back, or is still there, tells nothing.
func Experiences(st *catalog.State) []Experience {
	if st.Record == nil {
		return nil
	}
	r := &remembering{st: st, open: map[string]*sending{}, tables: map[string]map[event.Key]any{},
		quotes: map[string]map[catalog.Cents]bool{}, bases: catalog.StartingBases()}
	for i := range st.Record.Entries {
		r.entry(&st.Record.Entries[i])
	}
	return r.all
}

type remembering struct {
	st     *catalog.State
	open   map[string]*sending
	tables map[string]map[event.Key]any      // what the pieces were sent for, as it stands
	quotes map[string]map[catalog.Cents]bool // prices that were named for the pieces, so far
	bases  map[string]catalog.Micro
	all    []Experience
}

// sending is a piece that is at a plater's.
type sending struct {
	terms   map[event.Key]any
	on      time.Time     // zero where the day can't be right
	first   catalog.Cents // the price when it was sent; where that was our estimate, the first he named
	named   bool          // he named it
	guessed catalog.Cents // the price when it was sent, where he was not told to go ahead for it
	refused float64       // the chance of a refusal then: once he has kept it, there is none
}

func (r *remembering) entry(e *journal.Entry) {
	pieces, sent := map[string]*journal.Change{}, map[string]map[event.Key]any{}
	concerned := map[string]bool{}
	for i := range e.Changes {
		c := &e.Changes[i]
		if !c.Target.Is(event.TablePiece) {
			continue
		}
		id := c.Target.Name()
		switch c.Target.Part() {
		case "":
			pieces[id], concerned[id] = c, true
		case event.TableSent:
			sent[id], concerned[id] = c.New, true
		case event.TableQuote:
			r.quoted(id, c)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(sent)) {
		r.sent(e, id, sent[id])
		if c, s := pieces[id], r.open[id]; e.Action == event.Sent && s != nil &&
			(c == nil || text(c.New[event.KeyStage]) != catalog.StageApproved.String()) {
			s.guessed = cents(r.tables[id][event.KeyCost])
		}
	}
	for _, id := range slices.Sorted(maps.Keys(concerned)) { // its stage may be what it was
		if s := r.open[id]; s != nil {
			r.ended(e, id, s, pieces[id], sent[id])
		}
	}
}

// quoted remembers a price that was named for a piece, and one that it took the place of: of
// the files, and gone from the state.
func (r *remembering) quoted(id string, c *journal.Change) {
	if len(c.Target) != 4 || c.New[event.KeyCost] == nil {
		return
	}
	if r.quotes[id] == nil {
		r.quotes[id] = map[catalog.Cents]bool{}
	}
	r.quotes[id][cents(c.New[event.KeyCost])] = true
	if c.Old[event.KeyCost] != nil {
		r.quotes[id][cents(c.Old[event.KeyCost])] = true
	}
}

// sent begins a sending, or changes its terms. An entry holds only the keys that became
// others, so the table is kept as it stands: sent again on the same terms is sent, too.
func (r *remembering) sent(e *journal.Entry, id string, now map[event.Key]any) {
	if e.Action == event.Refused || e.Action == event.Recalled {
		delete(r.tables, id)
		return // the terms of the sending are those before it
	}
	table := r.tables[id]
	if table == nil {
		table = map[event.Key]any{}
		r.tables[id] = table
	}
	maps.Copy(table, now)
	maps.DeleteFunc(table, func(_ event.Key, v any) bool { return v == nil })
	s := r.open[id]
	if e.Action == event.Sent || s == nil && text(now[event.KeyPlater]) != "" {
		s = &sending{first: cents(table[event.KeyCost]), named: r.named(id, table), refused: float(table[event.KeyRefused])}
		if !r.st.Record.Misdated[e.Seq] {
			s.on = e.Day()
		}
		r.open[id] = s
	}
	if s != nil {
		if e.Action == event.Priced && !s.named {
			s.first, s.named = cents(table[event.KeyCost]), true
		}
		s.terms = maps.Clone(table)
	}
}

// named says whether the price at which a piece is sent was the plater's own. Records from
// before that was kept say so where a quote of that price is known for the piece.
func (r *remembering) named(id string, table map[event.Key]any) bool {
	if said, ok := table[event.KeyQuoted].(bool); ok {
		return said
	}
	cost := cents(table[event.KeyCost])
	if r.quotes[id][cost] {
		return true
	}
	i, ok := r.st.FindPiece(id)
	return ok && slices.ContainsFunc(r.st.Pieces[i].Quotes, func(q catalog.Quote) bool {
		return q.Cost == cost && r.st.Platers[q.Plater].ID == text(table[event.KeyPlater])
	})
}

// ended says whether an entry is the end of a sending, or of some pieces of it, and of what
// kind. What the entry is called says so; its stage may have been that before.
func (r *remembering) ended(e *journal.Entry, id string, s *sending, piece *journal.Change, sent map[event.Key]any) {
	if piece == nil {
		piece = &journal.Change{}
	}
	x := r.begin(id, s)
	switch stage := text(piece.New[event.KeyStage]); {
	case e.Action == event.Back:
		x.Paid, x.PaidKnown = cents(sent[event.KeyPaid]), sent[event.KeyPaid] != nil
		if !s.on.IsZero() && !r.st.Record.Misdated[e.Seq] {
			x.Took, x.TookKnown = int(e.Day().Sub(s.on)/(24*time.Hour)), true
		}
		x.Grade, x.GradeKnown = centi100(piece.New[event.KeyGrade])
	case stage == catalog.StageBroken.String() || stage == catalog.StageLost.String():
		x.Broke = true
	case e.Action == event.Broke || e.Action == event.Lost: // some of a bag: the others are still there
		x.Broke, x.Count = true, int(float(piece.Old[event.KeyQuantity])-float(piece.New[event.KeyQuantity]))
		if x.Count > 0 {
			r.all = append(r.all, x)
		}
		return
	case e.Action == event.Refused:
		x.Refused = true
	case e.Action == event.Recalled, stage == catalog.StageSold.String():
		delete(r.open, id)
		return
	default:
		return // it goes on
	}
	delete(r.open, id)
	r.all = append(r.all, x)
}

func (r *remembering) begin(id string, s *sending) Experience {
	x := Experience{Job: r.st.Job.File, Piece: id, Work: text(s.terms[event.KeyWork]),
		Plater: text(s.terms[event.KeyPlater]),
		Level:  text(s.terms[event.KeyLevel]), Agreed: s.first, Named: s.named, Guessed: s.guessed}
	if n, ok := s.terms[event.KeyDays].(int64); ok {
		x.Promised = int(n)
	}
	x.GradePromised, _ = centi100(s.terms[event.KeyGrade])
	x.Predicted, x.PredictedRefused = float(s.terms[event.KeyBreakage]), s.refused
	x.Count = max(1, int(float(s.terms[event.KeyCount])))
	if f := float(s.terms[event.KeyFactor]); f > 0 {
		x.Predicted /= f // of a plater like any other
	}
	if i, ok := r.st.FindPiece(id); ok && r.st.Pieces[i].Metal != catalog.None {
		x.Metal = r.st.Tables.Metals[r.st.Pieces[i].Metal].Name
		if b0, b := float64(r.bases[x.Metal])/float64(catalog.One), float(s.terms[event.KeyBase]); b > 0 && b < 1 && b0 > 0 {
			x.Predicted = 1 - (1-x.Predicted)*(1-b0)/(1-b) // as the built-in table alone would have it
		}
	}
	x.Predicted = min(max(x.Predicted, 0), 1)
	return x
}

func text(v any) string {
	s, _ := v.(string)
	return s
}

func cents(v any) catalog.Cents {
	c, err := catalog.ParseMoney(text(v))
	if err != nil {
		return 0
	}
	return c
}

func float(v any) float64 {
	switch x := v.(type) {
	case int64:
		return float64(x)
	case float64:
		return x
	}
	return 0
}

func centi100(v any) (catalog.Centi, bool) {
	switch v.(type) {
	case int64, float64:
		return catalog.Centi(float(v)*100 + 0.5), true
	}
	return 0, false // a word: what it meant is in the tables of its day
}
