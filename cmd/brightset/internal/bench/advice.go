package bench

import (
	"context"
	"net/http"
	"time"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/cmd/brightset/internal/report/page"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/risk"
	"brightset/solver"
)

// What hunt, risk and learn say is shown in tables; it is worked out after the page.

func (s *Server) advicePage(w http.ResponseWriter, r *http.Request, page, name string) {
	_, _, f, ok := s.open(w, r, page)
	if !ok {
		return
	}
	f.Name = name
	s.show(w, http.StatusOK, "advice", map[string]any{"F": f, "Part": "/" + page + ".part"})
}

func (s *Server) huntPage(w http.ResponseWriter, r *http.Request) {
	s.advicePage(w, r, "hunt", "What to look out for")
}

func (s *Server) riskPage(w http.ResponseWriter, r *http.Request) {
	s.advicePage(w, r, "risk", "How it may turn out")
}

// huntTime is how long finds are looked at.
const huntTime = 20 * time.Second

func (s *Server) huntPart(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	h, err := answered(r.Context(), s, d.State, question{"hunt", catalog.None}, huntTime,
		func(ctx context.Context) (*ask.Hunted, error) { return ask.Hunt(ctx, d.State, nil, solver.Settings{}) })
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	s.show(w, http.StatusOK, "blocks", map[string]any{"Blocks": report.HuntBlocks(h)})
}

// The simulation, as the command has it.
const (
	riskRuns = 20_000
	riskSeed = 1
)

func (s *Server) riskPart(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	p, blocks, err := beside(r.Context(), s, d.State, question{"risk said", catalog.None}, 4*patience,
		func(ctx context.Context, p *plan.Plan) ([]page.Block, error) {
			return report.RiskBlocks(risk.RiskOf(ctx, p), risk.Simulate(ctx, p, riskRuns, riskSeed)), nil
		})
	s.showPart(w, r, "blocks", p, err, func() map[string]any { return map[string]any{"Blocks": blocks} })
}

// learnPage is what the shop's jobs teach; without a shop, what this one does.
func (s *Server) learnPage(w http.ResponseWriter, r *http.Request) {
	d, _, f, ok := s.open(w, r, "learn")
	if !ok {
		return
	}
	lesson, err := learnt(d.State)
	if err != nil {
		s.fail(w, r, http.StatusInternalServerError, err)
		return
	}
	f.Name = "What the shop has learnt"
	s.show(w, http.StatusOK, "advice", map[string]any{"F": f, "Blocks": report.LearnBlocks(lesson)})
}

func learnt(st *catalog.State) (*report.Lesson, error) {
	all, n := risk.Experiences(st), 1
	if len(st.Shop.Jobs) > 0 {
		all, n = nil, len(st.Shop.Jobs)
		for _, job := range st.Shop.Jobs {
			other, err := catalog.Load(job, catalog.Options{})
			if err != nil {
				return nil, err
			}
			all = append(all, risk.Experiences(other)...)
		}
	}
	return &report.Lesson{Learnt: risk.Learn(all, st.Tables.Strength), Jobs: n}, nil
}
