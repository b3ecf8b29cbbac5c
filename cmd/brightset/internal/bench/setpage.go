package bench

import (
	"net/http"

	"brightset/cmd/brightset/internal/report"
)

// planPage is the set as a whole. What its pictures show is worked out after it.
func (s *Server) planPage(w http.ResponseWriter, r *http.Request) {
	_, p, f, ok := s.open(w, r, "plan")
	if !ok {
		return
	}
	data := map[string]any{"F": f}
	if p.Has {
		data["Rows"], data["Money"] = report.PlanLines(p), report.MoneyChart(p)
	}
	s.show(w, http.StatusOK, "plan", data)
}

// turnsPart pictures how the plan may turn out.
func (s *Server) turnsPart(w http.ResponseWriter, r *http.Request) {
	if d := s.forPart(w); d != nil {
		p, risk, err := s.riskOf(r.Context(), d.State)
		s.showPart(w, r, "picture", p, err, func() map[string]any {
			return map[string]any{"Picture": report.TurnsChart(p, risk)}
		})
	}
}

// curvePart pictures what more grade costs.
func (s *Server) curvePart(w http.ResponseWriter, r *http.Request) {
	if d := s.forPart(w); d != nil {
		p, curve, err := s.curveOf(r.Context(), d.State)
		s.showPart(w, r, "picture", p, err, func() map[string]any {
			return map[string]any{"Picture": report.CurveChart(p, curve)}
		})
	}
}

// stopsPart says at which price after stripping to stop.
func (s *Server) stopsPart(w http.ResponseWriter, r *http.Request) {
	if d := s.forPart(w); d != nil {
		p, stops, err := s.stopsOf(r.Context(), d.State)
		s.showPart(w, r, "stops", p, err, func() map[string]any {
			return map[string]any{"Stops": report.StopRows(d.State, stops)}
		})
	}
}

// othersPart sets other plans beside the advised one.
func (s *Server) othersPart(w http.ResponseWriter, r *http.Request) {
	if d := s.forPart(w); d != nil {
		p, all, err := s.othersOf(r.Context(), d.State)
		s.showPart(w, r, "others", p, err, func() map[string]any {
			return map[string]any{"Rows": report.OtherRows(p, all)}
		})
	}
}
