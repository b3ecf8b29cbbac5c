package solver

import (
	"cmp"
	"context"
	"slices"
	"time"

	"brightset/solver/parallel"
)

// Front asks for the least total under rising demands.
type Front struct {
	Row  int                   // a row at least
	From int64                 // the first limit
	Next func(sum int64) int64 // the limit after a solution whose sum in the row is this; above it, and rising with it
	To   int64                 // no limit is above this
}

// Point is a solution than which nothing with as high a sum in the row is cheaper.
type Point struct {
	Result
	Sum int64 // in the row
}

// Gap is what was not looked at to the end: a solution with a sum above After, and up to
// Until, comes to Bound at least.
type Gap struct {
	After, Until int64
	Bound        int64
}

// Front gives, in the order of their sums, the cheapest solutions under limits that rise
// from what the solution before reached: of all solutions with the least total for its
// limit, one with the highest sum, so that nothing is better in both. With Next one above
// the sum, those are all the nondominated points there are; else they are some of those.
// Where a solve was stopped there are gaps, and points that are not proven.
//
// The first and the last are found first, then what lies half way between two, and so on:
// what lies to the left of a point and what lies to its right are two questions, each from
// what was known at the point left of it. Of no two points the order matters.
//
// With a limit of time each question has a share of what is left; what it leaves goes to
// those that were not answered.
func (s *Solver) Front(ctx context.Context, ch Change, f Front, set Settings) ([]Point, []Gap, error) {
	w := &front{Front: f, ctx: ctx, ch: ch, set: set, parts: 4}
	points, left, err := w.look(s)
	if _, limited := ctx.Deadline(); err == nil && limited {
		points, left, err = w.again(points, left)
	}
	return undominated(points), gapsOf(left), err
}

// look asks every question once.
func (w *front) look(s *Solver) (points []Point, left []unanswered, err error) {
	root := w.solver(s)
	first, proven, bound, err := w.point(root, w.From, nil)
	if err != nil || first == nil {
		if !proven && err == nil {
			left = append(left, unanswered{Gap: Gap{w.From - 1, w.To, bound}, at: root})
		}
		return nil, left, err
	}
	s.memory = first.at.memory.copied()
	if !proven {
		left = append(left, unanswered{Gap{w.From - 1, w.Next(first.Sum) - 1, bound}, root, first, true})
	}
	points, more, err := w.above(first)
	return append(points, first.Point), append(left, more...), err
}

// undominated puts points in the order of their sums, and leaves out those that one with as
// high a sum is no dearer than: they were not proven.
func undominated(all []Point) []Point {
	slices.SortStableFunc(all, func(a, b Point) int {
		return cmp.Or(cmp.Compare(a.Sum, b.Sum), cmp.Compare(b.Total, a.Total))
	})
	least := Limit
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].Total >= least {
			all = slices.Delete(all, i, i+1)
			continue
		}
		least = all[i].Total
	}
	return all
}

// front is a front being looked for.
type front struct {
	Front
	ctx   context.Context
	ch    Change
	set   Settings
	parts int // one question may take one part of so many of the time that is left
}

// spot is a point, and the solver that knows what was known there.
type spot struct {
	Point
	at     *Solver
	proven bool // nothing with as high a sum is cheaper
}

// solver is one of the problem in which the row is there from the first limit on, so that
// all limits are changes of it alone.
func (w *front) solver(s *Solver) *Solver {
	p := *s.p
	p.Rows = slices.Clone(p.Rows)
	p.Rows[w.Row].Limit = w.From
	return &Solver{p: &p, sums: s.sums, memory: s.memory.copied(), layout: &layout{}, leave: s.leave}
}

// above is what lies above the first point.
func (w *front) above(first *spot) (points []Point, left []unanswered, err error) {
	if first.Sum >= w.To {
		return nil, nil, nil
	}
	last, proven, bound, err := w.point(first.at.Fork(), w.To, nil)
	if err != nil {
		return nil, nil, err
	}
	points, left, err = w.between(first, last, w.To, false)
	if !proven { // the last limit may be met for less, or at all
		left = append(left, unanswered{Gap{w.To - 1, w.To, bound}, first.at, last, true})
	}
	if last != nil && err == nil {
		points = append(points, last.Point)
	}
	return points, left, err
}

// between is what lies between a point and a limit that b meets; b is nil where nothing
// does, or nothing was found. It asks half way, or next to a where nothing is likely.
func (w *front) between(a, b *spot, hi int64, next bool) (points []Point, left []unanswered, err error) {
	low := w.Next(a.Sum)
	switch {
	case low >= hi:
		return nil, nil, nil
	case b != nil && b.Total <= a.Total:
		if !a.proven { // what a should have been may still be cheaper than b
			left = []unanswered{{Gap{a.Sum, hi - 1, a.Bound}, a.at, b, false}}
		}
		return nil, left, nil
	}
	limit := w.Next(low - 1 + (hi-low)/2)
	if limit >= hi || next {
		limit = low
	}
	var below *int64
	if b != nil {
		below = &b.Total // what comes to as much is b
	}
	m, proven, bound, err := w.point(a.at.Fork(), limit, below)
	if err != nil {
		return nil, nil, err
	}
	if !proven {
		if w.ctx.Err() != nil {
			if m != nil {
				points = append(points, m.Point)
			}
			return points, []unanswered{{Gap{a.Sum, limit - 1, a.Bound}, a.at, m, false},
				{Gap{limit - 1, hi - 1, max(bound, a.Bound)}, a.at, b, false}}, nil
		}
		if m == nil { // its share is used up: what lies below is asked for less, and may be easier
			points, left, err = w.between(a, b, limit, false)
			return points, append(left, unanswered{Gap{limit - 1, hi - 1, max(bound, a.Bound)}, a.at, b, false}), err
		}
		left = append(left, unanswered{Gap{limit - 1, min(w.Next(m.Sum), hi) - 1, max(bound, a.Bound)}, a.at, m, true})
	}
	if m == nil {
		return w.between(a, b, limit, true)
	}
	sides := [2]struct {
		points []Point
		left   []unanswered
	}{}
	ended := context.WithoutCancel(w.ctx) // where time is up each still says what is not known
	err = parallel.Do(ended, 2, func(i int) (err error) {
		d := &sides[i]
		if i == 0 {
			d.points, d.left, err = w.between(a, m, limit, false)
		} else {
			d.points, d.left, err = w.between(m, b, hi, false)
		}
		return err
	})
	points = append(append(sides[0].points, m.Point), sides[1].points...)
	return points, append(append(sides[0].left, left...), sides[1].left...), err
}

// share is a part of the time that is left: a point that is hard to prove leaves the others
// theirs.
func (w *front) share() (context.Context, context.CancelFunc) {
	if end, limited := w.ctx.Deadline(); limited {
		return context.WithTimeout(w.ctx, time.Until(end)/time.Duration(w.parts))
	}
	return w.ctx, func() {}
}

// point is a solution of least total whose sum is at least limit, and of those one with
// the highest sum: below a total if one is given; nil if there is none, or none was found.
// Where it is not proven, none is below bound.
func (w *front) point(s *Solver, limit int64, below *int64) (p *spot, proven bool, bound int64, err error) {
	ctx, done := w.share()
	defer done()
	for {
		ch := w.ch
		ch.Limits = append(slices.Clone(ch.Limits), LimitTo{Row: w.Row, Limit: limit})
		ch.Below = cmp.Or(below, ch.Below)
		res := Result{Status: Stopped, Bound: -Limit}
		if ctx.Err() == nil { // to lay out a large problem takes a while
			res, err = s.Solve(ctx, ch, w.set)
		}
		if err != nil {
			return nil, false, 0, err
		}
		stopped := res.Status == Stopped
		if p == nil {
			bound = res.Bound
		}
		if !res.Has {
			if p != nil {
				p.proven = !stopped
			}
			return p, !stopped, bound, nil
		}
		p = &spot{Point{Result: res, Sum: s.p.rowSum(w.Row, &res)}, s, !stopped}
		if stopped || p.Sum >= w.To || w.Next(p.Sum) == p.Sum+1 {
			return p, !stopped, bound, nil
		}
		limit, below = p.Sum+1, new(p.Total+1)
	}
}

// rowSum is what an answer's columns and switches come to in a row.
func (p *Problem) rowSum(row int, res *Result) int64 {
	sum := int64(0)
	for g, c := range res.Pick {
		sum += coefOf(p.Groups[g].Columns[c].Terms, row)
	}
	for h, on := range res.On {
		if on {
			sum += coefOf(p.Switches[h].Terms, row)
		}
	}
	return sum
}
