package bench

import "net/http"

// papersPage lists the sheets that can be printed.
func (s *Server) papersPage(w http.ResponseWriter, r *http.Request) {
	_, p, f, ok := s.open(w, r, "papers")
	if !ok {
		return
	}
	data := map[string]any{"F": f}
	if p.Has {
		pages, papers, err := s.sheets(r.Context(), p)
		if err != nil {
			s.fail(w, r, http.StatusInternalServerError, err)
			return
		}
		type sheet struct{ Name, Title string }
		var all []sheet
		for _, one := range pages {
			title := one.Title
			if one.Sub != "" {
				title += " " + one.Sub
			}
			all = append(all, sheet{one.Name, title})
		}
		data["Sheets"], data["Held"] = all, papers.Held()
	}
	s.show(w, http.StatusOK, "papers", data)
}

// paper is one sheet, the same as orders writes.
func (s *Server) paper(w http.ResponseWriter, r *http.Request) {
	_, p, _, ok := s.open(w, r, "papers")
	if !ok || !p.Has {
		return
	}
	pages, _, err := s.sheets(r.Context(), p)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	for _, one := range pages {
		if one.Name == r.PathValue("name") {
			text, err := one.HTML()
			if err != nil {
				s.fail(w, r, http.StatusInternalServerError, err)
				return
			}
			w.Header().Set("Content-Security-Policy", one.Policy())
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			w.Write(text)
			return
		}
	}
	http.NotFound(w, r)
}
