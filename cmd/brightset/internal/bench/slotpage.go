package bench

import (
	"context"
	"net/http"
	"slices"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/solver"
)

// slotPage is the page of one slot, the first where none is named.
func (s *Server) slotPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "slots")
	if !ok {
		return
	}
	st := d.State
	if len(st.Slots) == 0 {
		s.show(w, http.StatusOK, "empty", map[string]any{"F": f})
		return
	}
	slot := 0
	for i := range st.Slots {
		if st.Slots[i].ID == r.FormValue("slot") {
			slot = i
		}
	}
	f.Slot = st.Slots[slot].ID
	p, rejected, bindings, err := s.beside(r.Context(), st)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	lock, bans := locksOn(st, bindings, slot)
	s.show(w, http.StatusOK, "slot", map[string]any{
		"F": f, "Name": st.Slots[slot].Name, "ID": st.Slots[slot].ID, "Area": st.Slots[slot].AreaWritten,
		"Asks":  report.SlotAsks(st, slot),
		"Cards": report.BenchCards(p, rejected, slot), "Defects": report.Defects(st), "Grades": st.Tables.Grades,
		"Tones": st.Tables.Tones, "Platers": st.Platers, "Lock": lock, "Bans": bans,
	})
}

// held is a lock or a ban with what it costs.
type held struct{ ID, Text string }

// locksOn are the lock and the bans that concern a slot.
func locksOn(st *catalog.State, all []ask.Binding, slot int) (lock string, bans []held) {
	if len(all) == 0 { // there is no plan to say what they cost
		all = ask.BindingsOf(st)
	}
	lines := report.BindingLines(st, all)
	for i := range all {
		b := &all[i]
		switch {
		case b.Lock != catalog.None && st.Locks[b.Lock].Slot == slot:
			lock = lines[i]
		case b.Ban != catalog.None:
			ban := &st.Bans[b.Ban]
			if ban.Slot == slot ||
				(ban.Slot == catalog.None && ban.Piece != catalog.None && slices.Contains(st.Pieces[ban.Piece].Fits, slot)) {
				bans = append(bans, held{ban.ID, lines[i]})
			}
		}
	}
	return lock, bans
}

// whyPart says why a slot is filled as it is.
func (s *Server) whyPart(w http.ResponseWriter, r *http.Request) {
	d, err := s.recorder()
	if err != nil {
		http.Error(w, "the files have mistakes", http.StatusConflict)
		return
	}
	for i := range d.State.Slots {
		if d.State.Slots[i].ID != r.FormValue("slot") {
			continue
		}
		ctx, done := context.WithTimeout(r.Context(), 4*patience)
		defer done()
		why, err := ask.AskWhy(ctx, d.State, i, solver.Settings{})
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		s.show(w, http.StatusOK, "why", map[string]any{
			"Rows":    report.WhyRows(why),
			"Turns":   report.WhyTurns(why),
			"Stopped": why.Stopped,
		})
		return
	}
	http.NotFound(w, r)
}
