package bench

import (
	"context"
	"time"

	"brightset/catalog"
	"brightset/model/ask"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/model/risk"
	"brightset/solver"
)

// glance is how long a page waits for the plan before it goes out without it: what somebody did
// has to show at once, and the plan follows.
const glance = 150 * time.Millisecond

// plan gives the plan of a state.
func (s *Server) plan(ctx context.Context, st *catalog.State) (*plan.Plan, error) {
	return answered(ctx, s, st, planned, patience, func(ctx context.Context) (*plan.Plan, error) {
		return program.Solve(ctx, st, solver.Settings{})
	})
}

// answered is asking for a server's own answers.
func answered[T any](ctx context.Context, s *Server, st *catalog.State, q question, limit time.Duration,
	work func(context.Context) (T, error)) (T, error) {
	return asking(ctx, &s.answers, st, q, limit, work)
}

// soon gives the plan if it is known within a glance, and nil if it isn't.
func (s *Server) soon(ctx context.Context, st *catalog.State) (*plan.Plan, error) {
	short, done := context.WithTimeout(ctx, s.glance)
	defer done()
	p, err := s.plan(short, st)
	if err != nil && short.Err() != nil && ctx.Err() == nil {
		return nil, nil
	}
	return p, err
}

// beside gives the plan and what is known beside it, where there is a plan.
func beside[T any](ctx context.Context, s *Server, st *catalog.State, q question, limit time.Duration,
	work func(context.Context, *plan.Plan) (T, error)) (p *plan.Plan, v T, err error) {
	if p, err = s.plan(ctx, st); err != nil || !p.Has {
		return p, v, err
	}
	v, err = answered(ctx, s, st, q, limit, func(ctx context.Context) (T, error) { return work(ctx, p) })
	return p, v, err
}

// rejectedOf gives what the set comes to with the other pieces that fit a slot.
func (s *Server) rejectedOf(ctx context.Context, st *catalog.State, slot int) (*plan.Plan, []ask.RejectedPiece, error) {
	return beside(ctx, s, st, question{"rejected", slot}, patience,
		func(ctx context.Context, p *plan.Plan) ([]ask.RejectedPiece, error) {
			all, _, err := ask.RejectedFor(ctx, p, slot, solver.Settings{})
			return all, err
		})
}

// bindingsOf gives what the locks and bans cost.
func (s *Server) bindingsOf(ctx context.Context, st *catalog.State) (*plan.Plan, []ask.Binding, error) {
	return beside(ctx, s, st, question{"bindings", catalog.None}, patience,
		func(ctx context.Context, p *plan.Plan) ([]ask.Binding, error) {
			return ask.Bindings(ctx, p, solver.Settings{})
		})
}

// curveStep is how finely the curve is drawn, in hundredths of a point of the mean.
const curveStep = 50

// curveOf gives the curve of a state.
func (s *Server) curveOf(ctx context.Context, st *catalog.State) (*plan.Plan, *ask.Curve, error) {
	return beside(ctx, s, st, question{"curve", catalog.None}, 4*patience,
		func(ctx context.Context, _ *plan.Plan) (*ask.Curve, error) {
			return ask.Frontier(ctx, st, curveStep, solver.Settings{})
		})
}

func (s *Server) othersOf(ctx context.Context, st *catalog.State) (*plan.Plan, []ask.Other, error) {
	return beside(ctx, s, st, question{"others", catalog.None}, patience,
		func(ctx context.Context, p *plan.Plan) ([]ask.Other, error) {
			return ask.Others(ctx, p, 1, 2, solver.Settings{})
		})
}

func (s *Server) whyOf(ctx context.Context, st *catalog.State, slot int) (*ask.Why, error) {
	return answered(ctx, s, st, question{"why", slot}, 4*patience, func(ctx context.Context) (*ask.Why, error) {
		return ask.AskWhy(ctx, st, slot, solver.Settings{})
	})
}

// stopsOf gives the prices after stripping at which to stop.
func (s *Server) stopsOf(ctx context.Context, st *catalog.State) (*plan.Plan, []ask.StopPrice, error) {
	return beside(ctx, s, st, question{"stops", catalog.None}, patience,
		func(ctx context.Context, p *plan.Plan) ([]ask.StopPrice, error) {
			all, _, err := ask.StopPrices(ctx, p, solver.Settings{})
			return all, err
		})
}

// riskOf gives how the plan may turn out.
func (s *Server) riskOf(ctx context.Context, st *catalog.State) (*plan.Plan, *risk.Risk, error) {
	return beside(ctx, s, st, question{"risk", catalog.None}, patience,
		func(ctx context.Context, p *plan.Plan) (*risk.Risk, error) { return risk.RiskOf(ctx, p), nil })
}
