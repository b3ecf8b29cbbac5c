package bench

import (
	"context"
	"sync"
	"time"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"
	"brightset/solver"
)

// answers keeps what was worked out for the present revision of the files; another
// revision makes all of it void. What was cut short since whoever asked went away is not kept.
type answers struct {
	mu       sync.Mutex
	revision string
	plan     *plan.Plan
	rejected []ask.RejectedPiece
	bindings []ask.Binding
	stops    []ask.StopPrice
	curve    *ask.Curve
	others   []ask.Other
	risk     *risk.Risk
}

// patience is how long the page waits for an answer before it takes the best there is.
const patience = 5 * time.Second

// patient gives a context for one question.
func patient(ctx context.Context) (context.Context, context.CancelFunc) {
	return context.WithTimeout(ctx, patience)
}

// at takes hold of the answers for a state. Release has to be called.
func (a *answers) at(st *catalog.State) {
	a.mu.Lock()
	if a.revision != st.Revision || st.Revision == "" {
		a.revision, a.plan, a.rejected, a.bindings, a.stops, a.curve, a.others, a.risk = st.Revision, nil, nil, nil, nil, nil,
			nil, nil
	}
}

// plan gives the plan of a state, worked out once.
func (s *Server) plan(ctx context.Context, st *catalog.State) (*plan.Plan, error) {
	s.answers.at(st)
	defer s.answers.mu.Unlock()
	return s.answers.planned(ctx, st)
}

func (a *answers) planned(ctx context.Context, st *catalog.State) (*plan.Plan, error) {
	if a.plan != nil {
		return a.plan, nil
	}
	own, done := patient(ctx)
	defer done()
	p, err := program.Solve(own, st, solver.Settings{})
	if err == nil && ctx.Err() == nil {
		a.plan = p
	}
	return p, err
}

// beside gives the plan with what the slot pages show beside it.
func (s *Server) beside(ctx context.Context,
	st *catalog.State) (p *plan.Plan, rejected []ask.RejectedPiece, bindings []ask.Binding, err error) {
	a := &s.answers
	a.at(st)
	defer a.mu.Unlock()
	if p, err = a.planned(ctx, st); err != nil || !p.Has {
		return p, nil, nil, err
	}
	if a.rejected != nil {
		return p, a.rejected, a.bindings, nil
	}
	own, done := context.WithTimeout(ctx, 2*patience)
	defer done()
	if rejected, _, err = ask.RejectedPieces(own, st, p, false, solver.Settings{}); err != nil {
		return p, nil, nil, err
	}
	if bindings, err = ask.Bindings(own, st, p, solver.Settings{}); err == nil && ctx.Err() == nil {
		a.rejected, a.bindings = rejected, bindings
	}
	return p, rejected, bindings, err
}

// curveOf gives the curve of a state, worked out once: the sliders move on it.
func (s *Server) curveOf(ctx context.Context, st *catalog.State) (*plan.Plan, *ask.Curve, error) {
	a := &s.answers
	a.at(st)
	defer a.mu.Unlock()
	p, err := a.planned(ctx, st)
	if err != nil || !p.Has {
		return p, nil, err
	}
	if a.curve != nil {
		return p, a.curve, nil
	}
	own, done := context.WithTimeout(ctx, 4*patience)
	defer done()
	c, err := ask.Frontier(own, st, curveStep, solver.Settings{})
	if err == nil && ctx.Err() == nil {
		a.curve = c
	}
	return p, c, err
}

// curveStep is how finely the sliders move, in hundredths of a point of the mean.
const curveStep = 50

func (s *Server) othersOf(ctx context.Context, st *catalog.State) (*plan.Plan, []ask.Other, error) {
	a := &s.answers
	a.at(st)
	defer a.mu.Unlock()
	p, err := a.planned(ctx, st)
	if err != nil || !p.Has {
		return p, nil, err
	}
	if a.others != nil {
		return p, a.others, nil
	}
	own, done := patient(ctx)
	defer done()
	others, err := ask.Others(own, st, p, 1, 2, solver.Settings{})
	if err == nil && ctx.Err() == nil {
		a.others = others
	}
	return p, others, err
}

func (s *Server) moneyOf(ctx context.Context, st *catalog.State) (*plan.Plan, *risk.Risk, []ask.StopPrice, error) {
	a := &s.answers
	a.at(st)
	defer a.mu.Unlock()
	p, err := a.planned(ctx, st)
	if err != nil || !p.Has {
		return p, nil, nil, err
	}
	if a.risk != nil {
		return p, a.risk, a.stops, nil
	}
	own, done := patient(ctx)
	defer done()
	stops, _, err := ask.StopPrices(own, st, p, solver.Settings{})
	if err != nil {
		return p, nil, nil, err
	}
	out := risk.RiskOf(own, p)
	if ctx.Err() == nil {
		a.risk, a.stops = out, stops
	}
	return p, out, stops, nil
}
