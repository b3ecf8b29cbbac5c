package ask

import (
	"context"
	"math"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
	"brightset/solver"
)

// turning looks for the value of a figure of one choice at which the decision turns: the
// nearest one, with every value before it proven to be none. For that it needs, at single
// values, the least total of the sets that keep to the decision and of all others
// (verdict), and between two values one of the reasons of steady.go and linear.go why the
// decision stands all the way.
type turning struct {
	ctx     context.Context
	st      *catalog.State
	slot    int
	set     solver.Settings
	c       *plan.Choice
	taken   bool // it is the advised choice; else the runner-up
	stopped bool
	tired   bool         // it took more verdicts than are worth it
	lever   choice.Lever // the figure that is moved
	figure  choice.Figure
	way     int64 // 1 or -1: the figure is moved up or down; distances from what it is now count in that direction

	known   map[int64]*verdict     // by distance
	relaxed map[int64]int64        // by distance: see linear.go
	derived map[int64]*derivations // by distance
	twins   []int
	apart   map[int][]plan.Choice // for slots that the piece doesn't fit
}

// none is the total of a set that there isn't.
const none = int64(math.MaxInt64)

// verdict is what the program says at one value of the figure.
type verdict struct {
	kept   int64       // the least total of the sets that keep to the decision: with the advised choice, without the runner-up
	others int64       // of all others; but for those that a swap with a twin turns into one that keeps to it
	lines  []plan.Line // of the cheapest that keeps to it
}

// stands: the advised choice is hung, and no set without it is cheaper; of the runner-up,
// no set with it is cheaper than all others.
func (t *turning) stands(v *verdict) bool {
	return v.kept <= v.others && (v.kept < none || !t.taken)
}

const (
	// stride is how much further each step away from the value there is goes than the
	// one before, where the whole way can't be settled at once.
	stride = 5
	// verdictsAtMost is how many values are looked at for one figure. Halving the way
	// takes about 40; what takes many more are near ties that go on and on.
	verdictsAtMost = 150
)

// find gives the last value up to which the decision stands throughout.
func (t *turning) find(f choice.Figure) (Breakpoint, error) {
	t.lever, t.figure, t.tired = choice.LeverOf(t.st, t.c, f), f, false
	t.known, t.relaxed, t.derived = map[int64]*verdict{}, map[int64]int64{}, map[int64]*derivations{}
	t.twins = twins(t.st, t.slot)
	t.apart = map[int][]plan.Choice{}
	now := t.lever.Now
	furthest := t.lever.Furthest(t.st, t.taken != (f == choice.FigureGrade))
	p := Breakpoint{Choice: t.c, Figure: f, Now: now, Each: choice.Needed(&t.st.Slots[t.slot]) > 1,
		Fitted: choice.Fitting(&t.st.Pieces[t.c.Piece], t.slot) != nil && (f == choice.FigureBreakage || f == choice.FigureGrade)}
	steps := furthest - now
	if t.way = 1; furthest < now {
		steps, t.way = now-furthest, -1
	}
	at := int64(0)
	for at < steps && !t.stopped && !t.tired {
		end := t.uniform(at, steps)
		turned, err := t.within(&at, end)
		if err == nil && !turned && !t.stopped && !t.tired && end < steps {
			turned, err = t.within(&at, end+1)
		}
		if err != nil || turned {
			p.Last = now + t.way*at
			return p, err
		}
	}
	p.Last, p.Never = now+t.way*at, at == steps
	return p, nil
}

// within moves at, where the decision stands, on towards a value as far as it stands, and
// says whether it turns before. It also ends, short of the value, where the search was
// stopped or takes too long.
func (t *turning) within(at *int64, end int64) (turned bool, err error) {
	if *at == end {
		return false, nil
	}
	if end-*at == 1 { // nothing lies between
		v, err := t.verdict(end)
		if err != nil || t.stopped || t.tired {
			return false, err
		}
		if !t.stands(v) {
			return true, nil
		}
		*at = end
		return false, nil
	}
	ok, err := t.steady(*at, end)
	if err != nil || t.stopped || t.tired {
		return false, err
	}
	if ok {
		*at = end
		return false, nil
	}
	middle := min(*at+(end-*at)/2, max(1, stride**at))
	if turned, err = t.within(at, middle); err != nil || turned || *at < middle {
		return turned, err
	}
	return t.within(at, end)
}

// verdict solves the program with the figure at a distance from what it is.
func (t *turning) verdict(distance int64) (*verdict, error) {
	if v := t.known[distance]; v != nil {
		return v, nil
	}
	if t.tired = len(t.known) >= verdictsAtMost; t.tired {
		return nil, nil
	}
	v := &verdict{kept: none, others: none}
	p := t.program(distance, t.st)
	if t.stopped {
		return nil, nil
	}
	if len(p.Unfilled()) == 0 {
		s, err := solver.New(p.Problem)
		if err != nil {
			return nil, err
		}
		var kept solver.Result
		if kept, v.kept, err = t.least(p, s, true); err != nil || t.stopped {
			return nil, err
		}
		if kept.Has {
			v.lines = p.Plan(kept).Lines
		}
		if _, v.others, err = t.least(p, s, false); err != nil || t.stopped {
			return nil, err
		}
	}
	t.known[distance] = v
	return v, nil
}

// program is the one of a state with the figure at a distance from what it is.
func (t *turning) program(distance int64, st *catalog.State) *program.Program {
	moved, adjust := t.lever.Moved(st, t.value(distance))
	p := program.CompileWithin(t.ctx, moved, program.Options{FixedLimits: true, Keep: append([]int{t.slot}, t.twins...), Adjust: adjust})
	t.stopped = t.stopped || p.GaveUp
	return p
}

func (t *turning) value(distance int64) int64 { return t.lever.Now + t.way*distance }

// least gives the cheapest set that keeps to the decision, or that doesn't. Of those that
// don't, one with the choice in question in a twin of the slot instead of the slot costs as
// much as the one with the two changed about, which does keep to it, or the other way
// round for the runner-up: such sets never turn a decision, and are left out.
func (t *turning) least(p *program.Program, s *solver.Solver, kept bool) (solver.Result, int64, error) {
	with := kept == t.taken
	as := func(c *plan.Choice) bool { return plan.SameChoice(c, t.c) == with }
	ban := p.Only(t.slot, as)
	if !kept {
		for _, twin := range t.twins {
			ban = append(ban, p.Only(twin, as)...)
		}
	}
	res, err := s.Solve(t.ctx, solver.Change{Ban: ban}, t.set)
	t.stopped = t.stopped || res.Status == solver.Stopped
	if !res.Has {
		return res, none, err
	}
	return res, res.Total, err
}
