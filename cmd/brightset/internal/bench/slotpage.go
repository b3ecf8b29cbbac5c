package bench

import (
	"net/http"
	"slices"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
)

// slotPage is the page of one slot, or the list of all where none is named.
func (s *Server) slotPage(w http.ResponseWriter, r *http.Request) {
	d, p, f, ok := s.open(w, r, "slots")
	if !ok {
		return
	}
	st := d.State
	slot, named := slotOf(st, r)
	if !named {
		f.Name = "Slots"
		s.show(w, http.StatusOK, "list", map[string]any{"F": f})
		return
	}
	f.Slot, f.Name = st.Slots[slot].ID, st.Slots[slot].Name
	lock, bans := locksOn(st, ask.BindingsOf(st), slot)
	cards := report.BenchCards(p, slot)
	data := map[string]any{"F": f, "ID": f.Slot, "Area": st.Slots[slot].AreaWritten, "Name": f.Name,
		"Asks": report.SlotAsks(st, slot), "Decision": report.Decision(p, slot),
		"Cards": cards, "Defects": report.DefectGroups(st), "Grades": st.Tables.Grades,
		"Tones": st.Tables.Tones, "Platers": st.Platers, "Lock": lock, "Bans": bans, "Held": lock != "" || len(bans) > 0,
		"Weight": catalog.FormatCenti(st.Slots[slot].Weight), "Quantity": st.Slots[slot].Quantity, "All": st.Slots,
		"Targets": targetNames(st), "Photos": anyPhotos(cards), "Today": d.Today()}
	if p.Has && len(cards) > 0 {
		data["Winner"] = cards[0]
	}
	if slot > 0 {
		data["Before"] = &st.Slots[slot-1]
	}
	if slot+1 < len(st.Slots) {
		data["After"] = &st.Slots[slot+1]
	}
	s.show(w, http.StatusOK, "slot", data)
}

func anyPhotos(cards []report.BenchCard) bool {
	return slices.ContainsFunc(cards, func(c report.BenchCard) bool { return c.Photos > 0 })
}

func targetNames(st *catalog.State) (all []string) {
	for i := range st.Tables.Targets {
		all = append(all, st.Tables.Targets[i].Name)
	}
	return all
}

// held is a lock or a ban, with what it costs where that is known.
type held struct{ ID, Text string }

// locksOn are the lock and the bans that concern a slot.
func locksOn(st *catalog.State, all []ask.Binding, slot int) (lock string, bans []held) {
	lines := report.BindingLines(st, all)
	for i := range all {
		b := &all[i]
		if !b.Looked {
			lines[i] = report.BindingHead(st, b)
		}
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

// slotOf is the position that a request names.
func slotOf(st *catalog.State, r *http.Request) (int, bool) {
	i := slices.IndexFunc(st.Slots, func(s catalog.Slot) bool { return s.ID == r.FormValue("slot") })
	return i, i >= 0
}

// whyPart says why a slot is filled as it is.
func (s *Server) whyPart(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	slot, ok := slotOf(d.State, r)
	if !ok {
		http.NotFound(w, r)
		return
	}
	why, err := s.whyOf(r.Context(), d.State, slot)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	s.show(w, http.StatusOK, "why", map[string]any{"Rows": report.WhyRows(why), "Turns": report.WhyTurns(why),
		"Stopped": why.Stopped})
}

// costsJSON says of the pieces on a slot's page what the whole set comes to with each, and what
// its lock and bans cost.
func (s *Server) costsJSON(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	slot, ok := slotOf(d.State, r)
	if !ok {
		http.NotFound(w, r)
		return
	}
	p, rejected, err := s.rejectedOf(r.Context(), d.State, slot)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	pieces := []report.BenchCost{}
	if p.Has {
		pieces = report.BenchCosts(p, rejected)
	}
	answer(w, map[string]any{"base": d.State.Revision, "pieces": pieces})
}

// locksJSON says what the lock and the bans of a slot cost.
func (s *Server) locksJSON(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	slot, ok := slotOf(d.State, r)
	if !ok {
		http.NotFound(w, r)
		return
	}
	_, all, err := s.bindingsOf(r.Context(), d.State)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	lock, bans := locksOn(d.State, all, slot)
	texts := map[string]string{}
	if lock != "" {
		texts["lock"] = lock
	}
	for _, b := range bans {
		texts["ban "+b.ID] = b.Text
	}
	answer(w, map[string]any{"base": d.State.Revision, "texts": texts})
}
