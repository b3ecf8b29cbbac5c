package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"

	"brightset/catalog"
	"brightset/cmd/brightset/internal/report"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// whatIfPage has the sliders.
func (s *Server) whatIfPage(w http.ResponseWriter, r *http.Request) {
	_, p, f, ok := s.open(w, r, "what-if")
	if !ok {
		return
	}
	data := map[string]any{"F": f}
	if p.Has {
		data["Sliders"], data["Now"], data["Means"] = slidersOf(p), pointOf(p, p), meansAround(p)
	}
	s.show(w, http.StatusOK, "what-if", data)
}

// point is one plan on the curve, as the sliders show it.
type point struct {
	Grade    float64       `json:"grade"`
	Expected catalog.Cents `json:"expected_cents"`
	Outlay   catalog.Cents `json:"outlay_cents"`
	Line     string        `json:"line"`    // the change in one line
	Changes  []string      `json:"changes"` // slot by slot
	Status   string        `json:"status"`
}

func pointOf(was, now *plan.Plan) point {
	if !now.Has {
		line := "nothing meets that"
		if now.Status == solver.Stopped {
			line = "not found in time"
		}
		return point{Status: now.Status.String(), Line: line, Changes: []string{}}
	}
	return point{Grade: now.Grade, Expected: now.Expected, Outlay: now.Outlay,
		Line:    report.ChangeLine(was, now),
		Changes: append([]string{}, report.Changes(was, now)...), Status: now.Status.String()}
}

// asOtherwise is a job with what the sliders ask for in place of what it asks, and all of that in one word.
// Lifted takes the budget away: what a mean costs is worth knowing beyond it.
func asOtherwise(st *catalog.State, r *http.Request) (other *catalog.State, asked string) {
	other = st.Clone()
	if r.FormValue("lifted") != "" {
		other.Job.Budget = catalog.Val[catalog.Cents]{}
		asked = " lifted"
	}
	number := func(key string, most float64, set func(float64)) {
		if v, err := strconv.ParseFloat(r.FormValue(key), 64); err == nil && v >= 0 && v <= most {
			asked += fmt.Sprintf(" %s %g", key, v)
			set(v)
		}
	}
	number("mean", 100, func(v float64) { other.Job.Target.Mean = value(catalog.Centi(v*100 + 0.5)) })
	number("budget", 1e9, func(v float64) { other.Job.Budget = value(catalog.Cents(v*100+0.5) - other.Job.SpentSum) })
	number("completion", 99.99, func(v float64) { other.Job.Completion = value(catalog.Micro(v*10_000 + 0.5)) })
	number("days", float64(catalog.MaxDays), func(v float64) { other.Job.WithinDays = value(int(v)) })
	return other, asked
}

// whatIfJSON solves with other limits. It changes nothing.
func (s *Server) whatIfJSON(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	other, asked := asOtherwise(d.State, r)
	p, one, err := beside(r.Context(), s, d.State, question{whatIf + asked, catalog.None}, patience,
		func(ctx context.Context, p *plan.Plan) (point, error) {
			now, err := program.Solve(ctx, other, solver.Settings{})
			if err != nil {
				return point{}, err
			}
			one := pointOf(p, now)
			if now.Has && !other.Job.Budget.Set && d.State.Job.Budget.Set && now.LeftOf(&d.State.Job) < 0 {
				one.Line += ", over budget"
			}
			return one, nil // the words alone are kept: many plans are much
		})
	switch {
	case err != nil:
		http.Error(w, err.Error(), http.StatusInternalServerError)
	case !p.Has:
		http.Error(w, "there is no plan to start from", http.StatusConflict)
	default:
		answer(w, one)
	}
}

// edgeJSON says where the edge is beyond which nothing fits, for limits with which nothing does.
func (s *Server) edgeJSON(w http.ResponseWriter, r *http.Request) {
	d := s.forPart(w)
	if d == nil {
		return
	}
	other, asked := asOtherwise(d.State, r)
	c, err := answered(r.Context(), s, d.State, question{"edge" + asked, catalog.None}, clashTime,
		func(ctx context.Context) (*ask.Explanation, error) { return ask.Explain(ctx, other, solver.Settings{}) })
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	answer(w, map[string]any{"edges": append([]string{}, edges(c)...)})
}

// edges names what would do of every limit by itself, the others kept.
func edges(c *ask.Explanation) (all []string) {
	for i := range c.Relaxations {
		g := &c.Relaxations[i]
		if g.State == nil || g.Plan == nil || !g.Plan.Has {
			continue
		}
		switch job := &g.State.Job; g.Requirement.Kind {
		case "budget":
			all = append(all, "below "+catalog.FormatMoney(job.Budget.V+job.SpentSum)+" nothing fits")
		case "mean":
			all = append(all, "above a mean of "+catalog.FormatCenti(job.Target.Mean.V)+" nothing fits")
		case "completion":
			all = append(all, "above a chance of "+catalog.FormatCenti(catalog.Centi(job.Completion.V/100))+"% nothing fits")
		case "date":
			all = append(all, fmt.Sprintf("in fewer than %d days nothing fits", job.WithinDays.V))
		}
	}
	return all
}

func value[T any](v T) catalog.Val[T] { return catalog.Val[T]{V: v, Set: true} }

func answer(w http.ResponseWriter, v any) {
	w.Header().Set("Content-Type", "application/json")
	json.NewEncoder(w).Encode(v)
}
