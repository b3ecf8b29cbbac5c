package risk

import (
	"context"

	"brightset/catalog"
)

// atom is one value of a part and its chance, or of a sum of parts.
type atom struct {
	chance float64
	cents  catalog.Cents
}

// mostCells bounds the steps by which sums are told, mostSums those that are kept one by one;
// fewCells bounds both where there is no time.
const (
	mostCells = 1 << 20
	mostSums  = 1 << 17
	fewCells  = 1 << 14
)

// addUp convolves the parts, and adds a sum that is certain. Where the context ends
// before that is done it is done with coarser steps, and whole is false.
func addUp(ctx context.Context, parts [][]atom, certain catalog.Cents) (d *Distribution, whole bool) {
	s := spreadOut(parts, certain)
	if d = s.convolve(ctx, mostCells, mostSums); d != nil {
		return d, true
	}
	return s.convolve(context.WithoutCancel(ctx), fewCells, fewCells), false
}

// summing is parts to be added up. Each is told by what it is most likely to be, so that
// the sum of those, which is the plan gone well and often just what a limit allows, is exact however
// wide the steps are.
type summing struct {
	parts  [][]atom      // what is above the likeliest
	likely catalog.Cents // the sum of the likeliest
	unit   catalog.Cents // divides all that is above or below it
	spread catalog.Cents // between the least sum and the greatest
	mean   float64
}

func spreadOut(parts [][]atom, certain catalog.Cents) *summing {
	s := &summing{likely: certain, mean: float64(certain)}
	for _, part := range parts {
		likeliest := part[0]
		for _, a := range part {
			s.mean += a.chance * float64(a.cents)
			if a.chance > likeliest.chance {
				likeliest = a
			}
		}
		s.likely += likeliest.cents
		var off []atom
		low, high := catalog.Cents(0), catalog.Cents(0)
		for _, a := range part {
			above := a.cents - likeliest.cents
			off = append(off, atom{a.chance, above})
			low, high = min(low, above), max(high, above)
			s.unit = divisor(s.unit, above)
		}
		s.spread += high - low
		s.parts = append(s.parts, off)
	}
	s.unit = max(1, s.unit)
	return s
}

// divisor is the greatest that divides both.
func divisor(a, b catalog.Cents) catalog.Cents {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

// convolve is exact where all sums lie on few steps, or are few; else they are told by steps,
// rounded either way. It gives nil if the context ends before all parts are in.
func (s *summing) convolve(ctx context.Context, cells, sums int) *Distribution {
	d := &Distribution{Step: 1, mean: s.mean}
	if s.spread/s.unit < catalog.Cents(cells) {
		d.low = s.bySteps(ctx, s.unit, floor)
		d.high = d.low
	} else if d.low = s.oneByOne(ctx, sums); d.low != nil {
		d.high = d.low
	} else {
		d.Step = (s.spread/s.unit/catalog.Cents(cells/2) + 1) * s.unit // half of them, for it is done twice
		d.Off = s.off(d.Step)
		if d.low = s.bySteps(ctx, d.Step, floor); d.low != nil {
			d.high = s.bySteps(ctx, d.Step, ceiling)
		}
	}
	if d.high == nil {
		return nil
	}
	return d
}

// floor and ceiling are how many steps an amount is, rounded down and up.
func floor(v, step catalog.Cents) int {
	if v < 0 {
		return -int((-v + step - 1) / step)
	}
	return int(v / step)
}

func ceiling(v, step catalog.Cents) int { return -floor(-v, step) }

// off is how far a sum may be off, whichever way it is rounded.
func (s *summing) off(step catalog.Cents) (sum catalog.Cents) {
	for _, part := range s.parts {
		most := catalog.Cents(0)
		for _, a := range part {
			down := a.cents - catalog.Cents(floor(a.cents, step))*step
			if down > 0 {
				most = max(most, down, step-down)
			}
		}
		sum += most
	}
	return sum
}

// bySteps keeps a chance for every step there is between the least sum and the greatest.
func (s *summing) bySteps(ctx context.Context, step catalog.Cents, steps func(v, step catalog.Cents) int) []atom {
	from, chances := s.likely, []float64{1}
	for _, part := range s.parts {
		if len(chances) > fewCells && ctx.Err() != nil {
			return nil
		}
		low, high := 0, 0
		for _, a := range part {
			low, high = min(low, steps(a.cents, step)), max(high, steps(a.cents, step))
		}
		from += catalog.Cents(low) * step
		if low == high {
			continue
		}
		next := make([]float64, len(chances)+high-low)
		for _, a := range part {
			to := next[steps(a.cents, step)-low:]
			for i, c := range chances {
				to[i] += c * a.chance
			}
		}
		chances = next
	}
	var sums []atom
	for i, c := range chances {
		if c > 0 {
			sums = append(sums, atom{c, from + catalog.Cents(i)*step})
		}
	}
	return sums
}

// oneByOne keeps every sum that there is with its chance; nil where there are more than most, or
// the context ends.
func (s *summing) oneByOne(ctx context.Context, most int) []atom {
	sums := []atom{{1, s.likely}}
	for _, part := range s.parts {
		if len(sums) > fewCells && ctx.Err() != nil {
			return nil
		}
		var next []atom
		for _, a := range part {
			if next = merged(next, sums, a); len(next) > most {
				return nil
			}
		}
		sums = next
	}
	return sums
}

// merged adds to rising sums those that a part makes of others with one of its values.
func merged(into, sums []atom, part atom) []atom {
	out := make([]atom, 0, len(into)+len(sums))
	for _, a := range sums {
		a.cents, a.chance = a.cents+part.cents, a.chance*part.chance
		for len(into) > 0 && into[0].cents < a.cents {
			out, into = append(out, into[0]), into[1:]
		}
		if len(into) > 0 && into[0].cents == a.cents {
			a.chance += into[0].chance
			into = into[1:]
		}
		out = append(out, a)
	}
	return append(out, into...)
}
