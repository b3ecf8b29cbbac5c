package ask

import (
	"context"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// turning looks for the value of a figure of one choice at which the decision turns: the
// nearest one, with every value before it proven to be none. For that it compares, at single
// values, the least total of the sets that keep to the decision and of all others
// (verdict), and between two values one of the reasons of steady.go and linear.go why the
// decision stands all the way. Most of what it has to know follows from what is known
// already (facts.go); the rest is asked (level.go).
type turning struct {
	ctx     context.Context
	st      *catalog.State
	slot    int
	base    *program.Explorer // of the state as it is
	bare    *program.Program  // without the demands that the figure counts in; see linear.go
	c       *plan.Choice
	taken   bool    // it is the advised choice; else the runner-up
	ways    []way   // what no set is below as it is, by choice for the slot
	sets    []found // all that were found, the ways' and since
	stopped bool
	tired   bool         // it asked more than it is worth
	asked   int          // how often
	guessed int          // how often it was guessed where it turns
	lever   choice.Lever // the figure that is moved
	figure  choice.Figure
	way     int64 // 1 or -1: the figure is moved up or down; distances from what it is now count in that direction

	known   map[int64]*verdict     // by distance
	relaxed map[int64]*verdict     // by distance: see linear.go
	derived map[int64]*derivations // by distance
	twins   []int
	apart   map[int][]plan.Choice // for slots that the piece doesn't fit
	steps   int64                 // the furthest distance
	over    int64                 // the least distance at which it is known not to stand

	unmatched *verdict   // see carryUnmatched
	inUse     []*verdict // those that hold a program, the one used last at the end
}

// open says whether the search has ended without an answer.
func (t *turning) open() bool { return t.stopped || t.tired }

// stands: the advised choice is hung, and no set without it is cheaper; of the runner-up,
// no set with it is cheaper than all others.
func (t *turning) stands(v *verdict) (bool, error) { return t.noMore(&v.kept, &v.others, 0) }

const (
	// stride is how much further each step away from the value there is goes than the
	// one before, where the whole way can't be settled at once.
	stride = 5
	// verdictsAtMost is how many values are looked at for one figure. Most take some dozen; what
	// takes many more are near ties that go on and on.
	verdictsAtMost = 400
	// guessesAtMost is how often it is guessed where the decision turns, before the way is halved.
	guessesAtMost = 12
)

// nearlyEqual is within how many cents others cost about the same.
const nearlyEqual = 1_00

// asksAtMost is how often the program is asked for one figure. Tests set it.
var asksAtMost = 150

// find gives the last value up to which the decision stands throughout.
func (t *turning) find(f choice.Figure) (Breakpoint, error) {
	t.lever, t.figure = choice.LeverOf(t.st, t.c, f), f
	t.known, t.relaxed, t.derived = map[int64]*verdict{}, map[int64]*verdict{}, map[int64]*derivations{}
	t.twins = twins(t.st, t.slot)
	t.apart = map[int][]plan.Choice{}
	now := t.lever.Now
	furthest := t.lever.Furthest(t.st, t.taken != (f == choice.FigureGrade))
	p := Breakpoint{Choice: t.c, Figure: f, Now: now, Each: choice.Needed(&t.st.Slots[t.slot]) > 1,
		Fitted: choice.Fitting(&t.st.Pieces[t.c.Piece], t.slot) != nil &&
			(f == choice.FigureBreakage || f == choice.FigureGrade)}
	t.steps, t.way = furthest-now, 1
	if furthest < now {
		t.steps, t.way = now-furthest, -1
	}
	at, steps := int64(0), t.steps
	t.over = steps + 1
	for at < steps && !t.open() {
		end := t.uniform(at, steps)
		turned, err := t.within(&at, end)
		if err == nil && !turned && !t.open() && end < steps {
			turned, err = t.within(&at, end+1)
		}
		if err != nil {
			return p, err
		}
		if turned {
			break
		}
	}
	p.Last, p.Most = now+t.way*at, now+t.way*(t.over-1)
	if v := t.known[at]; t.tired && v != nil {
		p.Close = v.others.hi < none && v.others.hi-v.kept.hi < nearlyEqual
	}
	p.Turns, p.Never = t.over <= steps, at == steps
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
		if err != nil || t.open() {
			return false, err
		}
		if stands, err := t.stands(v); err != nil || t.open() || !stands {
			if err == nil && !t.open() {
				t.over = min(t.over, end)
			}
			return err == nil && !t.open(), err
		}
		*at = end
		return false, nil
	}
	ok, err := t.steady(*at, end)
	if err != nil || t.open() {
		return false, err
	}
	if ok {
		*at = end
		return false, nil
	}
	middle, err := t.between(*at, end)
	if err != nil || t.open() {
		return false, err
	}
	if turned, err = t.within(at, middle); err != nil || turned || *at < middle {
		return turned, err
	}
	return t.within(at, end)
}

// between is a value between two, at the first of which the decision stands, to look at next:
// where by all that is known it falls before the second, at first the last up to which it surely
// stands, then the last before that; where guessing has led nowhere, one that halves the way.
func (t *turning) between(at, end int64) (int64, error) {
	middle := min(at+(end-at)/2, max(1, stride*at))
	if t.guessed >= guessesAtMost {
		return middle, nil
	}
	t.guessed++
	falls, err := t.seemsCheaper(end)
	if err != nil || t.open() || !falls {
		return middle, err
	}
	last, err := t.lastOf(at, end, func(m int64) (bool, error) {
		cheaper, err := t.seemsCheaper(m)
		return !cheaper, err
	})
	if err != nil || t.open() || t.guessed > 1 {
		return max(last, at+1), err
	}
	sure, err := t.lastOf(at, last+1, func(m int64) (bool, error) {
		_, err := t.verdict(m)
		return err == nil && !t.open() && t.known[at] != nil && t.surely(at, m), err
	})
	if sure > at {
		last = sure
	}
	return max(last, at+1), err
}

// lastOf is the last value between two, the first included, up to which something is so.
func (t *turning) lastOf(at, end int64, is func(int64) (bool, error)) (int64, error) {
	for end-at > 1 {
		m := at + (end-at)/2
		yes, err := is(m)
		switch {
		case err != nil || t.open():
			return at, err
		case yes:
			at = m
		default:
			end = m
		}
	}
	return at, nil
}

// seemsCheaper says whether of the sets that are known the cheapest is one that doesn't keep to the
// decision.
func (t *turning) seemsCheaper(distance int64) (bool, error) {
	v, err := t.verdict(distance)
	if err != nil || t.open() {
		return false, err
	}
	if v.others.hi < v.kept.lo {
		t.over = min(t.over, distance)
	}
	return v.others.hi < v.kept.hi || t.taken && v.kept.hi == none, nil
}
