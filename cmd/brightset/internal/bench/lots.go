package bench

import (
	"net/http"

	"brightset/cmd/brightset/internal/report"
)

// lotsPage is what goes to platers together, and what is with them.
func (s *Server) lotsPage(w http.ResponseWriter, r *http.Request) {
	d, p, f, ok := s.open(w, r, "lots")
	if !ok {
		return
	}
	f.Name = "At the plater"
	s.show(w, http.StatusOK, "lots", map[string]any{"F": f, "Send": report.ToSend(p), "Away": report.AtPlaters(d.State),
		"Grades": d.State.Tables.Grades, "Currency": d.State.Job.Currency})
}

// photosPage sets the photos of the pieces for a position side by side, large.
func (s *Server) photosPage(w http.ResponseWriter, r *http.Request) {
	d, p, f, ok := s.open(w, r, "slots")
	if !ok {
		return
	}
	slot, ok := slotOf(d.State, r)
	if !ok {
		http.NotFound(w, r)
		return
	}
	f.Slot, f.Name = d.State.Slots[slot].ID, "Photos: "+d.State.Slots[slot].Name
	s.show(w, http.StatusOK, "photos", map[string]any{"F": f, "ID": f.Slot, "Cards": report.BenchCards(p, slot)})
}
