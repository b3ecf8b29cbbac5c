package catalog

import "fmt"

// readMatches reads [match.NAME]: slots whose pieces are seen together.
func (l *loader) readMatches() {
	if l.job == nil {
		return
	}
	for _, t := range l.job.named("match") {
		m := Match{
			ID:          t.id,
			GradeWithin: number(t, "grade_within", 0, MaxGrade, 100),
			ToneWithin:  number(t, "tone_within", 0, 2*MaxTone, 100),
			SamePlater:  t.flag("same_plater").V, FreshAlike: t.flag("fresh_alike").V,
			From: t.here(),
		}
		if t.need("slots", `write slots = ["...", "..."], two or more`) {
			before := len(l.list)
			m.Slots = t.refs("slots", l.slots)
			if given, _ := t.m["slots"].([]any); len(l.list) == before && len(given) < 2 {
				t.wrong("slots", "a match group needs two slots or more", "name another slot, or leave the group out")
			}
		}
		if !m.GradeWithin.Set && !m.ToneWithin.Set && !m.SamePlater && !m.FreshAlike {
			l.warn(m.From, fmt.Sprintf("%s asks nothing; give it grade_within, tone_within, same_plater or fresh_alike", t.what))
		}
		l.state.Matches = append(l.state.Matches, m)
		t.done()
	}
}

// readTrades reads [trade.NAME] and refuses trades that go round in a circle.
func (l *loader) readTrades() {
	if l.job == nil {
		return
	}
	var tables []*table
	for _, t := range l.job.named("trade") {
		trade := Trade{ID: t.id, Give: None, Get: None, Credit: t.money("credit").V, From: t.here()}
		if t.need("give", `write give = "...", the piece that is given`) {
			trade.Give = t.piece("give")
		}
		if t.need("get", `write get = "...", the piece that is taken for it`) {
			trade.Get = t.piece("get")
		}
		if trade.Give != None && trade.Give == trade.Get {
			t.wrong("get", "a piece can't be traded for itself", "name another piece")
		} else {
			t.checkTrade(&trade)
			l.state.Trades = append(l.state.Trades, trade)
			tables = append(tables, t)
		}
		t.done()
	}
	if round := l.circle(); len(round) > 0 {
		last := tables[round[len(round)-1]]
		last.wrongHere(fmt.Sprintf("%s goes round in a circle with trade %q", last.what, l.state.Trades[round[0]].ID),
			"leave one of the trades out")
	}
}

// checkTrade refuses what would earn money on paper only: giving a piece that
// has to be bought first, and one trade written as two.
func (t *table) checkTrade(trade *Trade) {
	s := t.l.state
	if trade.Give != None {
		if p := &s.Pieces[trade.Give]; p.Side == Vendors || p.Bundle != None {
			t.wrong("give", fmt.Sprintf("piece %q has to be bought first, so it can't be given", p.ID),
				"name a piece of the customer's or of the shop's")
		}
	}
	for _, other := range s.Trades {
		if other.Give == trade.Give && other.Get == trade.Get && trade.Give != None && trade.Get != None {
			t.wrongHere(fmt.Sprintf("%s is the same as trade %q", t.what, other.ID), "leave one of the two out")
		}
	}
}

// circle gives the trades that go round in circles. It takes away, as long as
// there is one, a trade whose piece taken nobody gives on or whose piece given
// nobody takes.
func (l *loader) circle() []int {
	gives, gets := map[int]int{}, map[int]int{}
	var left []int
	for i, t := range l.state.Trades {
		if t.Give != None && t.Get != None {
			gives[t.Give]++
			gets[t.Get]++
			left = append(left, i)
		}
	}
	for {
		var kept []int
		for _, i := range left {
			t := l.state.Trades[i]
			if gives[t.Get] > 0 && gets[t.Give] > 0 {
				kept = append(kept, i)
				continue
			}
			gives[t.Give]--
			gets[t.Get]--
		}
		if len(kept) == len(left) {
			return kept
		}
		left = kept
	}
}

// piece reads the id of a piece: of the job's file, else of the shop's, or of
// the one that is named before a colon.
func (t *table) piece(key string) int {
	before := len(t.l.list)
	id := t.text(key)
	if len(t.l.list) > before || !t.has(key) {
		return None
	}
	if i, ok := findPiece(id, t.l.jobPieces, t.l.shopPieces); ok {
		return i
	}
	if short := plainID(id); t.l.keptOut[short] && (id == short || id == "shop:"+short) {
		t.wrong(key, fmt.Sprintf("the shop's piece %q fits no slot of this job", short),
			"let a slot have its part, or leave this out")
		return None
	}
	if t.l.partial || t.l.spoilt[join("piece", plainID(id))] {
		return None
	}
	if t.l.pieceIDs == nil {
		for i := range t.l.state.Pieces {
			t.l.pieceIDs = append(t.l.pieceIDs, t.l.state.Pieces[i].ID)
		}
	}
	t.wrong(key, fmt.Sprintf("unknown piece %q", clip(id)),
		t.l.meant(id, t.l.pieceIDs, "write the id of a [piece.ID] table"))
	return None
}
