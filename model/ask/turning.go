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
	base    *program.Explorer // of the state as it is
	bare    *program.Program  // without the demands that the figure counts in; see linear.go
	c       *plan.Choice
	taken   bool // it is the advised choice; else the runner-up
	stopped bool
	tired   bool         // it took more verdicts than are worth it
	lever   choice.Lever // the figure that is moved
	figure  choice.Figure
	way     int64 // 1 or -1: the figure is moved up or down; distances from what it is now count in that direction

	known   map[int64]*verdict     // by distance
	relaxed map[int64]*level       // by distance: see linear.go
	derived map[int64]*derivations // by distance
	twins   []int
	apart   map[int][]plan.Choice // for slots that the piece doesn't fit
}

// none is the total of a set that there isn't.
const none = int64(math.MaxInt64)

// verdict is what the program says at one value of the figure.
type verdict struct {
	// kept is the least total of the sets that keep to the decision: with the advised
	// choice, without the runner-up.
	kept   int64
	others level       // of all others; but for those that a swap with a twin turns into one that keeps to it
	lines  []plan.Line // of the cheapest that keeps to it
}

// level is what is known of a least total so far. Nobody asks what it is, only whether it
// is below some other sum, which takes far less.
type level struct {
	e      *program.Explorer // nil: there is no set
	ban    []solver.Pick
	lo, hi int64 // none is below lo; one comes to hi
}

// below says whether a set comes to less than a sum.
func (t *turning) below(l *level, sum int64) (bool, error) {
	switch {
	case l.e == nil || sum <= l.lo:
		return false, nil
	case l.hi < sum:
		return true, nil
	}
	res, err := l.e.Fork().Least(t.ctx, solver.Change{Ban: l.ban, Below: &sum, Any: true})
	if t.stopped = t.stopped || res.Status == solver.Stopped; err != nil || t.stopped {
		return false, err
	}
	if !res.Has {
		l.lo = sum
		return false, nil
	}
	l.lo, l.hi = max(l.lo, res.Bound), res.Total
	return true, nil
}

// stands: the advised choice is hung, and no set without it is cheaper; of the runner-up,
// no set with it is cheaper than all others.
func (t *turning) stands(v *verdict) (bool, error) {
	if v.kept == none && t.taken {
		return false, nil
	}
	other, err := t.below(&v.others, v.kept)
	return !other, err
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
	t.bare = nil
	t.known, t.relaxed, t.derived = map[int64]*verdict{}, map[int64]*level{}, map[int64]*derivations{}
	t.twins = twins(t.st, t.slot)
	t.apart = map[int][]plan.Choice{}
	now := t.lever.Now
	furthest := t.lever.Furthest(t.st, t.taken != (f == choice.FigureGrade))
	p := Breakpoint{Choice: t.c, Figure: f, Now: now, Each: choice.Needed(&t.st.Slots[t.slot]) > 1,
		Fitted: choice.Fitting(&t.st.Pieces[t.c.Piece], t.slot) != nil &&
			(f == choice.FigureBreakage || f == choice.FigureGrade)}
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
		if stands, err := t.stands(v); err != nil || t.stopped || !stands {
			return err == nil && !t.stopped, err
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
	v := &verdict{kept: none, others: level{lo: -none, hi: none}}
	e, err := t.base.After(t.program(distance, t.base.Program))
	if err != nil || t.stopped {
		return nil, err
	}
	if len(e.Unfilled()) == 0 {
		kept, err := e.Fork().Least(t.ctx, solver.Change{Ban: t.keeping(e.Program, true)})
		if t.stopped = t.stopped || kept.Status == solver.Stopped; err != nil || t.stopped {
			return nil, err
		}
		if kept.Has {
			v.kept, v.lines = kept.Total, e.Plan(kept).Lines
		}
		v.others.e, v.others.ban = e, t.keeping(e.Program, false)
	}
	t.known[distance] = v
	return v, nil
}

// program is one of the state, or of the state without some demands, with the figure at a
// distance from what it is.
func (t *turning) program(distance int64, base *program.Program) *program.Program {
	moved, adjust := t.lever.Moved(base.State, t.value(distance))
	p := base.Again(moved, program.Options{Adjust: adjust, GiveUp: program.Over(t.ctx)}, t.c.Piece)
	t.stopped = t.stopped || p.GaveUp
	return p
}

func (t *turning) value(distance int64) int64 { return t.lever.Now + t.way*distance }

// keeping bans all sets that don't keep to the decision, or all that do. Of those that
// don't, one with the choice in question in a twin of the slot instead of the slot costs as
// much as the one with the two changed about, which does keep to it, or the other way
// round for the runner-up: such sets never turn a decision, and are left out.
func (t *turning) keeping(p *program.Program, kept bool) []solver.Pick {
	with := kept == t.taken
	as := func(c *plan.Choice) bool { return plan.SameChoice(c, t.c) == with }
	ban := p.Only(t.slot, as)
	if !kept {
		for _, twin := range t.twins {
			ban = append(ban, p.Only(twin, as)...)
		}
	}
	return ban
}
