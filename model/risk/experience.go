package risk

import (
	"maps"
	"slices"
	"time"

	"brightset/catalog"
	"brightset/catalog/journal"
)

// Experience is one piece that went to a plater and what came of it.
type Experience struct {
	Job, Piece, Metal, Work, Plater, Level string
	Agreed, Paid                           catalog.Cents // for one piece
	PaidKnown                              bool
	Named                                  bool // Agreed is a price of the plater's, not our own estimate
	Promised, Took                         int  // days
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
	r := &remembering{st: st, open: map[string]*sending{}, tables: map[string]map[string]any{},
		quotes: map[string]map[catalog.Cents]bool{}, bases: catalog.StartingBases()}
	for i := range st.Record.Entries {
		r.entry(&st.Record.Entries[i])
	}
	return r.all
}

type remembering struct {
	st     *catalog.State
	open   map[string]*sending
	tables map[string]map[string]any         // what the pieces were sent for, as it stands
	quotes map[string]map[catalog.Cents]bool // prices that were named for the pieces, so far
	bases  map[string]catalog.Micro
	all    []Experience
}

// sending is a piece that is at a plater's.
type sending struct {
	terms   map[string]any
	on      time.Time     // zero where the day can't be right
	first   catalog.Cents // the price when it was sent; where that was our estimate, the first he named
	named   bool          // he named it
	refused float64       // the chance of a refusal then: once he has kept it, there is none
}

func (r *remembering) entry(e *journal.Entry) {
	pieces, sent := map[string]*journal.Change{}, map[string]map[string]any{}
	concerned := map[string]bool{}
	for i := range e.Changes {
		c := &e.Changes[i]
		switch {
		case len(c.Target) == 2 && c.Target[0] == "piece":
			pieces[c.Target[1]], concerned[c.Target[1]] = c, true
		case len(c.Target) == 3 && c.Target[0] == "piece" && c.Target[2] == "sent":
			sent[c.Target[1]], concerned[c.Target[1]] = c.New, true
		case len(c.Target) == 4 && c.Target[0] == "piece" && c.Target[2] == "quote" && c.New["cost"] != nil:
			if r.quotes[c.Target[1]] == nil {
				r.quotes[c.Target[1]] = map[catalog.Cents]bool{}
			}
			r.quotes[c.Target[1]][cents(c.New["cost"])] = true
			if c.Old["cost"] != nil { // of the files, and gone from the state
				r.quotes[c.Target[1]][cents(c.Old["cost"])] = true
			}
		}
	}
	for _, id := range slices.Sorted(maps.Keys(sent)) {
		r.sent(e, id, sent[id])
	}
	for _, id := range slices.Sorted(maps.Keys(concerned)) { // its stage may be what it was
		if s := r.open[id]; s != nil {
			r.ended(e, id, s, pieces[id], sent[id])
		}
	}
}

// sent begins a sending, or changes its terms. An entry holds only the keys that became
// others, so the table is kept as it stands: sent again on the same terms is sent, too.
func (r *remembering) sent(e *journal.Entry, id string, now map[string]any) {
	if e.Action == "refused" || e.Action == "recalled" {
		delete(r.tables, id)
		return // the terms of the sending are those before it
	}
	table := r.tables[id]
	if table == nil {
		table = map[string]any{}
		r.tables[id] = table
	}
	maps.Copy(table, now)
	maps.DeleteFunc(table, func(_ string, v any) bool { return v == nil })
	s := r.open[id]
	if e.Action == "sent" || s == nil && text(now["plater"]) != "" {
		s = &sending{first: cents(table["cost"]), named: r.named(id, table), refused: float(table["refused"])}
		if !r.st.Record.Misdated[e.Seq] {
			s.on = e.Day()
		}
		r.open[id] = s
	}
	if s != nil {
		if e.Action == "priced" && !s.named {
			s.first, s.named = cents(table["cost"]), true
		}
		s.terms = maps.Clone(table)
	}
}

// named says whether the price at which a piece is sent was the plater's own. Records from
// before that was kept say so where a quote of that price is known for the piece.
func (r *remembering) named(id string, table map[string]any) bool {
	if said, ok := table["quoted"].(bool); ok {
		return said
	}
	cost := cents(table["cost"])
	if r.quotes[id][cost] {
		return true
	}
	i, ok := r.st.FindPiece(id)
	return ok && slices.ContainsFunc(r.st.Pieces[i].Quotes, func(q catalog.Quote) bool {
		return q.Cost == cost && r.st.Platers[q.Plater].ID == text(table["plater"])
	})
}

// ended says whether an entry is the end of a sending, or of some pieces of it, and of what
// kind. What the entry is called says so; its stage may have been that before.
func (r *remembering) ended(e *journal.Entry, id string, s *sending, piece *journal.Change, sent map[string]any) {
	if piece == nil {
		piece = &journal.Change{}
	}
	x := r.begin(id, s)
	switch stage := text(piece.New["stage"]); {
	case e.Action == "back":
		x.Paid, x.PaidKnown = cents(sent["paid"]), sent["paid"] != nil
		if !s.on.IsZero() && !r.st.Record.Misdated[e.Seq] {
			x.Took, x.TookKnown = int(e.Day().Sub(s.on)/(24*time.Hour)), true
		}
		x.Grade, x.GradeKnown = centi100(piece.New["grade"])
	case stage == catalog.StageBroken.String() || stage == catalog.StageLost.String():
		x.Broke = true
	case e.Action == "broke" || e.Action == "lost": // some of a bag: the others are still there
		x.Broke, x.Count = true, int(float(piece.Old["quantity"])-float(piece.New["quantity"]))
		if x.Count > 0 {
			r.all = append(r.all, x)
		}
		return
	case e.Action == "refused":
		x.Refused = true
	case e.Action == "recalled", stage == catalog.StageSold.String():
		delete(r.open, id)
		return
	default:
		return // it goes on
	}
	delete(r.open, id)
	r.all = append(r.all, x)
}

func (r *remembering) begin(id string, s *sending) Experience {
	x := Experience{Job: r.st.Job.File, Piece: id, Work: text(s.terms["work"]), Plater: text(s.terms["plater"]),
		Level: text(s.terms["level"]), Agreed: s.first, Named: s.named}
	if n, ok := s.terms["days"].(int64); ok {
		x.Promised = int(n)
	}
	x.GradePromised, _ = centi100(s.terms["grade"])
	x.Predicted, x.PredictedRefused = float(s.terms["breakage"]), s.refused
	x.Count = max(1, int(float(s.terms["count"])))
	if f := float(s.terms["factor"]); f > 0 {
		x.Predicted /= f // of a plater like any other
	}
	if i, ok := r.st.FindPiece(id); ok && r.st.Pieces[i].Metal != catalog.None {
		x.Metal = r.st.Tables.Metals[r.st.Pieces[i].Metal].Name
		if b0, b := float64(r.bases[x.Metal])/float64(catalog.One), float(s.terms["base"]); b > 0 && b < 1 && b0 > 0 {
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
