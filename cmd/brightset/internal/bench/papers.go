package bench

import (
	"context"
	"net/http"

	"brightset/catalog"
	"brightset/catalog/sheet"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/plan"
)

// papersPage lists the sheets that can be printed.
func (s *Server) papersPage(w http.ResponseWriter, r *http.Request) {
	_, p, f, ok := s.open(w, r, "papers")
	if !ok {
		return
	}
	data := map[string]any{"F": f, "Tables": sheet.All}
	if p.Has {
		papers, err := s.opt.Papers(r.Context(), p.Of, p, false)
		if err != nil {
			s.fail(w, r, http.StatusInternalServerError, err)
			return
		}
		type sheet struct{ Name, Title string }
		var all []sheet
		for _, one := range papers.Pages() {
			title := one.Title
			if one.Sub != "" {
				title += " " + one.Sub
			}
			all = append(all, sheet{one.Name, title})
		}
		data["Sheets"], data["Held"] = all, papers.HeldCalled()
	}
	s.show(w, http.StatusOK, "papers", data)
}

// papersOf are the sheets of a plan with all that stands on them.
func (s *Server) papersOf(ctx context.Context, st *catalog.State) (*plan.Plan, *report.Papers, error) {
	return beside(ctx, s, st, question{"papers", catalog.None}, 2*patience,
		func(ctx context.Context, p *plan.Plan) (*report.Papers, error) { return s.opt.Papers(ctx, st, p, true) })
}

// paper is one sheet, the same as orders writes.
func (s *Server) paper(w http.ResponseWriter, r *http.Request) {
	d, _, _, ok := s.open(w, r, "papers")
	if !ok {
		return
	}
	p, papers, err := s.papersOf(r.Context(), d.State)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	if p.Has {
		for _, one := range papers.Pages() {
			if one.Name != r.PathValue("name") {
				continue
			}
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
