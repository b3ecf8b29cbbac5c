package solver

import (
	"cmp"
	"slices"
)

// unanswered is a question that was not answered to the end: what is cheapest with a sum above
// After, where the limit of sums up to Until is concerned.
type unanswered struct {
	Gap
	at  *Solver // that knows what was known when it was asked
	to  *spot   // what is dearer is of no use; nil: nothing is known
	own bool    // it was the answer so far, and what is as cheap with a higher sum is better
}

// again asks what was left open once more, one question after another, each with an equal part
// of the time that is left then.
func (w *front) again(points []Point, asked []unanswered) (all []Point, left []unanswered, err error) {
	for i, q := range asked {
		if w.ctx.Err() != nil {
			return points, append(left, asked[i:]...), nil
		}
		w.parts = len(asked) - i
		more, rest, err := w.retry(q)
		if err != nil {
			return points, append(left, asked[i:]...), err
		}
		points, left = append(points, more...), append(left, rest...)
	}
	return points, left, nil
}

// retry asks one question again, and then what its answer leaves to be asked.
func (w *front) retry(q unanswered) (points []Point, left []unanswered, err error) {
	ctx, done := w.share()
	defer done()
	part := *w
	part.ctx, part.parts = ctx, 1
	var below *int64
	if q.to != nil {
		below = new(q.to.Total)
		if q.own {
			*below++
		}
	}
	p, proven, bound, err := part.point(q.at.Fork(), q.After+1, below)
	if err != nil {
		return nil, nil, err
	}
	if p != nil {
		points = append(points, p.Point)
	}
	if !proven {
		q.Bound = max(q.Bound, bound)
		return points, []unanswered{q}, nil
	}
	if p == nil || p.Sum >= q.Until {
		return points, nil, nil
	}
	part.parts = 2
	more, left, err := part.between(p, q.to, q.Until+1, false)
	return append(points, more...), left, err
}

// gapsOf is what is left unanswered, rising.
func gapsOf(left []unanswered) (gaps []Gap) {
	for _, q := range left {
		if q.After < q.Until {
			gaps = append(gaps, q.Gap)
		}
	}
	slices.SortStableFunc(gaps, func(a, b Gap) int { return cmp.Compare(a.After, b.After) })
	return gaps
}
