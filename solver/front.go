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
// tells every point on the way: of all solutions with the least total for its limit, one
// with the highest sum, so that nothing is better in both. With Next one above the sum,
// those are all the nondominated points there are; else they are some of those. It ends
// where a limit can't be met, or a solve was stopped before it had found anything; whole
// says that nothing was stopped.
func (s *Solver) Front(ctx context.Context, ch Change, f Front, set Settings,
	tell func(Point) error) (whole bool, err error) {
	var last *Point
	whole = true
	for limit := f.From; limit <= f.To; {
		p, proven, err := s.reaching(ctx, ch, f.Row, limit, nil, set)
		if err != nil {
			return false, err
		}
		whole = whole && proven
		if p == nil {
			break
		}
		if last != nil && last.Total < p.Total {
			if err := tell(*last); err != nil {
				return false, err
			}
		}
		last = p
		if limit = f.Next(p.Sum); limit > p.Sum+1 && proven { // what lies between would not be looked at
			if last, proven, err = s.raised(ctx, ch, &f, p, set); err != nil {
				return false, err
			}
			whole = whole && proven
			limit = f.Next(last.Sum)
		}
	}
	if last != nil {
		err = tell(*last)
	}
	return whole, err
}

// raised is a solution of the same least total with the highest sum there is.
func (s *Solver) raised(ctx context.Context, ch Change, f *Front, p *Point, set Settings) (*Point, bool, error) {
	below := p.Total + 1
	for p.Sum < f.To {
		better, proven, err := s.reaching(ctx, ch, f.Row, p.Sum+1, &below, set)
		if err != nil || better == nil {
			return p, proven, err
		}
		if p = better; !proven {
			return p, false, nil
		}
	}
	return p, true, nil
}

// reaching is a solution of least total whose sum in a row is at least limit, below a
// total if one is given; nil if there is none, or none was found.
func (s *Solver) reaching(ctx context.Context, ch Change, row int, limit int64, below *int64,
	set Settings) (p *Point, proven bool, err error) {
	ch.Limits = append(append([]LimitTo(nil), ch.Limits...), LimitTo{Row: row, Limit: limit})
	if below != nil {
		ch.Below = below
	}
	res, err := s.Solve(ctx, ch, set)
	if err != nil || !res.Has {
		return nil, res.Status != Stopped, err
	}
	return &Point{Result: res, Sum: s.p.rowSum(row, &res)}, res.Status != Stopped, nil
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
