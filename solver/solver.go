package solver

import (
	"context"
	"fmt"
	"runtime"
	"time"
)

// Solver answers questions about one Problem. It may keep what it learns from
// one solve for the next. It is not safe for use by several goroutines at once.
type Solver struct {
	p      *Problem
	sums   *sums
	memory memory
	layout *layout
	leave  without // tests set it
}

// New checks the problem and makes a solver for it.
func New(p *Problem) (*Solver, error) {
	if err := p.validShape(); err != nil {
		return nil, err
	}
	sums, err := p.addUp()
	if err != nil {
		return nil, err
	}
	return &Solver{p: p, sums: sums, layout: &layout{}}, nil
}

// Solve finds a solution of least total under a change, and among those one of least Tie:
// Result.Settled says whether that is proven. A cancelled context or a
// limit of the settings ends it early with what is in hand; that is no error.
func (s *Solver) Solve(ctx context.Context, ch Change, set Settings) (Result, error) {
	if err := s.validChange(&ch); err != nil {
		return Result{}, err
	}
	if set.Goroutines <= 0 {
		set.Goroutines = runtime.GOMAXPROCS(0)
	}
	if t := s.parted(&ch); t != nil {
		t.ctx, t.set, t.began = ctx, set, time.Now()
		return t.run(ch.Start)
	}
	r := &search{p: s.p, ch: ch, set: set, ctx: ctx, began: time.Now(),
		memory: &s.memory, layout: s.layout, leave: s.leave}
	r.best.equal = !set.TotalAlone && !r.decides()
	if err := r.run(); err != nil {
		return Result{}, err
	}
	if err := r.settle(); err != nil {
		return Result{}, err
	}
	res, err := r.result()
	if err == nil && res.Has {
		s.memory.keep(res.Pick)
		s.memory.trail = r.best.trail
	}
	return res, err
}

// parted is the problem taken apart, where it has parts and nothing but where to start
// is changed.
func (s *Solver) parted(ch *Change) *decomposition {
	if s.leave.parts || len(ch.Fix)+len(ch.Ban)+len(ch.Limits)+len(ch.Costs)+len(ch.Fixed)+len(ch.Off) > 0 ||
		ch.Below != nil {
		return nil
	}
	t := s.p.apart()
	if t != nil {
		t.leave = s.leave
		for _, q := range t.parts {
			q.leave = s.leave
		}
	}
	return t
}

// validChange says what is wrong with a change: the same rules hold for its numbers,
// and for the sums that arise with it, as for those of the problem.
func (s *Solver) validChange(ch *Change) error {
	p := s.p
	picks := append(append([]Pick(nil), ch.Fix...), ch.Ban...)
	for _, c := range ch.Costs {
		picks = append(picks, c.Pick)
		if tooLarge(c.Cost) {
			return fmt.Errorf("change: cost out of range")
		}
	}
	for _, k := range picks {
		if k.Group < 0 || k.Group >= len(p.Groups) || k.Column < 0 || k.Column >= len(p.Groups[k.Group].Columns) {
			return fmt.Errorf("change: there is no column %d in group %d", k.Column, k.Group)
		}
	}
	for _, l := range ch.Limits {
		if l.Row < 0 || l.Row >= len(p.Rows) || tooLarge(l.Limit) {
			return fmt.Errorf("change: limit of row %d out of range", l.Row)
		}
	}
	for _, f := range ch.Fixed {
		if f.Switch < 0 || f.Switch >= len(p.Switches) || tooLarge(f.Fixed) {
			return fmt.Errorf("change: charge of switch %d out of range", f.Switch)
		}
	}
	return s.sums.with(p, ch)
}
