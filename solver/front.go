package solver

import "context"

// Front asks for the least total under one rising demand after another.
type Front struct {
	Row  int                   // a row at least
	From int64                 // the first limit
	Next func(sum int64) int64 // the limit after a solution whose sum in the row is this; above it
	To   int64                 // no limit is above this
}

// Point is a solution than which nothing with as high a sum in the row is cheaper.
type Point struct {
	Result
	Sum int64 // in the row
}

// Front solves under limits that rise from what the solution before reached, and
// tells every point that no later one beats: one with the same total and a higher
// sum takes its place. With Next one above the sum, those are all the nondominated
// points there are. It ends where a limit can't be met, or a solve was stopped
// before it had found anything; whole says that nothing was stopped.
func (s *Solver) Front(ctx context.Context, ch Change, f Front, set Settings, tell func(Point) error) (whole bool, err error) {
	var last *Point
	whole = true
	for limit := f.From; limit <= f.To; {
		at := ch
		at.Limits = append(append([]LimitTo(nil), ch.Limits...), LimitTo{Row: f.Row, Limit: limit})
		res, err := s.Solve(ctx, at, set)
		if err != nil {
			return false, err
		}
		whole = whole && res.Status != Stopped
		if !res.Has {
			break
		}
		p := &Point{Result: res, Sum: s.p.rowSum(f.Row, &res)}
		if last != nil && last.Total < p.Total {
			if err := tell(*last); err != nil {
				return false, err
			}
		}
		last = p
		limit = f.Next(p.Sum)
	}
	if last != nil {
		err = tell(*last)
	}
	return whole, err
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
