package ask

import "brightset/solver"

// none is the total of a set that there isn't.
const none = int64(1<<63 - 1)

// level is what is known of the least total of some sets at one value of a figure. What it is
// hardly matters, only how two of them compare, which takes far less.
type level struct {
	of     *verdict
	ban    []solver.Pick // what they are without
	lo, hi int64         // none is below lo; one comes to hi; both none: there is no set
}

// offer has a level know of a set, where it is one of them. It says whether it is one.
func (l *level) offer(res solver.Result) bool {
	for _, b := range l.ban {
		if res.Pick[b.Group] == b.Column {
			return false
		}
	}
	l.hi = min(l.hi, res.Total)
	return true
}

// below says whether a set comes to less than a sum.
func (t *turning) below(l *level, sum int64) (bool, error) {
	if sum > l.lo && sum <= l.hi {
		if err := t.ask(l, solver.Change{Ban: l.ban, Below: &sum, Any: true}); err != nil || t.open() {
			return false, err
		}
	}
	return l.hi < sum, nil
}

// askLeast has the least total found, and not only how it compares.
func (t *turning) askLeast(l *level) error {
	ch := solver.Change{Ban: l.ban}
	if l.hi < none {
		ch.Below = &l.hi
	}
	return t.ask(l, ch)
}

// ask asks the program for a set, and keeps what is learnt of the level.
func (t *turning) ask(l *level, ch solver.Change) error {
	if t.tired = t.tired || t.asked >= asksAtMost; t.tired {
		return nil
	}
	t.asked++
	e, err := t.explorer(l.of)
	if err != nil || t.open() {
		return err
	}
	res, err := e.Fork().Least(t.ctx, ch)
	if err != nil {
		return err
	}
	t.stopped = t.stopped || res.Status == solver.Stopped
	if res.Has {
		t.keep(e.Problem, &res)
		l.offer(res)
	}
	l.lo = max(l.lo, min(res.Bound, l.hi))
	if res.Status == solver.Infeasible { // there is none below the sum; or none at all
		l.lo = none
		if ch.Below != nil {
			l.lo = *ch.Below
		}
	}
	return nil
}

// keep remembers a set: where it can be, in the terms of the state's own program, so that the one it
// was found with is not held for it.
func (t *turning) keep(in *solver.Problem, res *solver.Result) {
	f := found{in, res.Pick, res.On}
	if pick, voluntary := solver.NewCarrier(in, t.base.Problem).Carry(res.Pick, res.On); pick != nil {
		f = found{t.base.Problem, pick, voluntary}
	}
	t.sets = append(t.sets, f)
}

// noMore says whether the least of a, and so much, is no more than the least of b. Where there is
// no a, the advised choice can't be hung: that is no; without the runner-up nothing fits: then it
// is a matter of whether there is a b.
func (t *turning) noMore(a, b *level, margin int64) (bool, error) {
	for {
		switch {
		case a.lo == none && t.taken:
			return false, nil
		case a.lo == none:
			other, err := t.below(b, none)
			return !other, err
		case a.hi < none && b.lo >= a.hi+margin:
			return true, nil
		case b.hi < none && b.hi < a.lo+margin:
			return false, nil
		}
		if a.hi < none {
			other, err := t.below(b, a.hi+margin)
			if err != nil || t.open() {
				return false, err
			}
			if !other {
				continue
			}
		}
		sum := none
		if b.hi < none {
			sum = b.hi - margin + 1
		}
		if _, err := t.below(a, sum); err != nil || t.open() {
			return false, err
		}
	}
}
