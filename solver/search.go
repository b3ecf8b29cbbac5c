package solver

import (
	"context"
	"fmt"
	"time"
)

// search is one solve: root, then branch and bound.
type search struct {
	p     *Problem
	ch    Change
	set   Settings
	ctx   context.Context
	began time.Time

	in       *instance
	best     incumbent
	other    int64 // no solution of interest has a total at or above this
	nodes    int
	lps      int
	seq      int
	stop     Stop
	ended    bool  // stopped early
	bound    int64 // proven; valid if stopped early
	queue    nodeQueue
	known    history
	guess    *guess // nil where none was made
	memory   *memory
	thorough bool    // cuts likely to leave one side are tried first, near the root all
	large    float64 // how large a node may be to be gone through block by block; 0: any
	layout   *layout // of the problem as it stands; nil where it is solved once
	leave    without
	level    int  // how many ties have taken the place of the total
	settled  bool // of all solutions of equal total, the one in hand has the least ties
	whole    bool // no column was left out before the first linear program
}

// stopped says whether a limit has been reached.
func (s *search) stopped() bool {
	if s.decided() {
		s.ended = true
		return true
	}
	stop := s.set.reached(s.ctx, s.began, s.nodes)
	if stop == Finished {
		return false
	}
	s.ended, s.stop = true, stop
	return true
}

// decides says whether any solution below a total is the whole answer.
func (s *search) decides() bool { return s.ch.Any && s.ch.Below != nil }

// decided says whether one is in hand. It changes only between batches of nodes, so that
// where a search ends does not depend on the number of goroutines.
func (s *search) decided() bool { return s.decides() && s.best.has && s.best.total < s.other }

// reached is the limit that a search which began then and has come so far has reached;
// Finished where it may go on.
func (set *Settings) reached(ctx context.Context, began time.Time, nodes int) Stop {
	switch {
	case ctx.Err() == context.DeadlineExceeded:
		return TimeLimit
	case ctx.Err() != nil:
		return Cancelled
	case set.TimeLimit > 0 && time.Since(began) >= set.TimeLimit:
		return TimeLimit
	case set.NodeLimit > 0 && nodes >= set.NodeLimit:
		return NodeLimit
	}
	return Finished
}

// halted is the same question without a side effect, for goroutines.
func (s *search) halted() bool {
	return s.decided() || s.ctx.Err() != nil || (s.set.TimeLimit > 0 && time.Since(s.began) >= s.set.TimeLimit)
}

func (s *search) run() error {
	s.bound = -Limit
	s.known = history{}
	d, ok := s.begin()
	if !ok {
		s.other = Limit
		return nil
	}
	s.other = s.in.beyond()
	if s.ch.Below != nil {
		s.other = min(s.other, max(-Limit, *s.ch.Below))
	}
	if s.tryStarts(d); s.stopped() || !s.in.propagate(d) {
		return nil
	}
	y, ok := s.start(d)
	if !ok || s.stopped() {
		return nil
	}
	if err := s.fromRoot(y, nil); err != nil {
		return err
	}
	for s.wrong() {
		if err := s.fromRoot(s.again()); err != nil {
			return err
		}
	}
	return nil
}

// fromRoot searches from the root on.
func (s *search) fromRoot(y *duals, pool *pool) error {
	root, err := s.root(y, pool)
	if err != nil || root == nil {
		return err
	}
	s.push(root)
	return s.branchAndBound()
}

// beyond is more than any total can be.
func (in *instance) beyond() int64 {
	sum := int64(1)
	for _, span := range in.groups {
		most := -Limit
		for c := span[0]; c < span[1]; c++ {
			most = max(most, in.cols[c].cost)
		}
		sum += most
	}
	for h := range in.switches {
		sum += max(0, in.switches[h].fixed) + in.switches[h].minimum
	}
	return sum
}

// shrinkTo leaves out columns that are not alive.
func (s *search) shrinkTo(alive bits) {
	if alive.count() < len(s.in.cols) {
		s.in = s.in.keep(alive)
	}
}

// mostCompared is how many columns are compared with each other. Of more, the
// first bound rules out most at a smaller price.
const mostCompared = 6000

// dropDominated leaves out columns that another makes needless.
func (s *search) dropDominated() {
	if len(s.in.cols) <= mostCompared && !s.leave.dominance {
		s.shrinkTo(s.in.undominated())
	}
	s.in.findAlike()
}

// tryStarts offers the picks the caller gave and those of earlier solves. A group
// whose column is ruled out now takes each of its columns in turn.
func (s *search) tryStarts(d *domain) {
	for _, pick := range append(append([][]int(nil), s.ch.Start...), s.memory.picks...) {
		if len(pick) != len(s.in.groups) {
			continue
		}
		s.tryStart(d, pick)
	}
	if s.best.has && s.best.total >= s.other {
		s.best = incumbent{equal: s.best.equal}
	}
}

func (s *search) tryStart(d *domain, pick []int) {
	t := s.in.newTally()
	missing := -1
	for g, want := range pick {
		at := s.in.columnOf(d, g, want)
		if at >= 0 {
			t.set(g, at)
		} else if missing >= 0 {
			return // too different
		} else {
			missing = g
		}
	}
	if missing < 0 {
		s.best.offer(t)
		return
	}
	end := s.in.groups[missing][1]
	for c := s.in.first(d, missing); c < end && !s.halted(); c = d.alive.next(c+1, end) {
		t.set(missing, c)
		s.best.offer(t)
	}
}

func (s *search) result() (Result, error) {
	if s.ch.Below != nil && s.best.has && s.best.total >= *s.ch.Below {
		s.best = incumbent{} // found on the way, and not of interest
	}
	r := Result{Stop: s.stop, Nodes: s.nodes, LPs: s.lps, Time: time.Since(s.began), Bound: s.bound, Status: Infeasible}
	if s.best.has {
		o := s.p.Evaluate(s.best.pick, s.best.vol, s.ch)
		if len(o.Broken) > 0 || o.Total != s.best.total {
			return Result{}, fmt.Errorf("internal error: the solution found comes to %d instead of %d and breaks %q; "+
				"please report this with the input", o.Total, s.best.total, o.Broken)
		}
		r.Has, r.Pick, r.On, r.Charge, r.Total = true, s.best.pick, o.On, o.Charge, o.Total
		r.Status, r.Settled = Optimal, s.settled
	}
	switch {
	case s.decided():
		r.Status, r.Stop, r.Bound = Found, Finished, min(r.Bound, r.Total)
	case s.ended:
		r.Status = Stopped
		if r.Has {
			r.Bound = min(r.Bound, r.Total)
		}
	case r.Has:
		r.Bound = r.Total
	default:
		r.Bound = s.other
	}
	return r, nil
}
