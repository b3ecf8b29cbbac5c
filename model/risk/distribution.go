package risk

import (
	"context"

	"brightset/catalog"
	"brightset/model/plan"
)

// Distribution is how likely every sum is that independent parts may add up to. The
// sums are of money, but for that of the grades by weight, which are in hundredths of
// hundredths.
type Distribution struct {
	From   catalog.Cents // the least sum
	Step   catalog.Cents // between the sums that are told apart; 1 is exact
	Off    catalog.Cents // no sum is off by more than this for being told by steps
	Chance []float64     // per step from From
}

// atom is one value of a part and its chance.
type atom struct {
	chance float64
	cents  catalog.Cents
}

// mostCells bounds the sums that are told apart, fewCells where there is no time.
const (
	mostCells = 1 << 20
	fewCells  = 1 << 14
)

// addUp convolves the parts, and adds a sum that is certain. Where the context ends
// before that is done it is done with coarser steps, and whole is false.
func addUp(ctx context.Context, parts [][]atom, sure catalog.Cents) (d *Distribution, whole bool) {
	if d = convolve(ctx, parts, sure, mostCells); d != nil {
		return d, true
	}
	return convolve(context.WithoutCancel(ctx), parts, sure, fewCells), false
}

// convolve gives nil if the context ends before all parts are in.
func convolve(ctx context.Context, parts [][]atom, sure catalog.Cents, cells catalog.Cents) *Distribution {
	least, spread := sure, catalog.Cents(0)
	low := make([]catalog.Cents, len(parts))
	for i, part := range parts {
		lo, hi := part[0].cents, part[0].cents
		for _, a := range part {
			lo, hi = min(lo, a.cents), max(hi, a.cents)
		}
		low[i] = lo
		least += lo
		spread += hi - lo
	}
	d := &Distribution{From: least, Step: spread/cells + 1, Chance: []float64{1}}
	for i, part := range parts {
		if spread > fewCells && ctx.Err() != nil {
			return nil
		}
		d.fold(part, low[i])
	}
	return d
}

// fold adds one more part, whose least value is low.
func (d *Distribution) fold(part []atom, low catalog.Cents) {
	offset := func(a atom) int { return int((a.cents - low + d.Step/2) / d.Step) }
	far, off := 0, catalog.Cents(0)
	for _, a := range part {
		at := offset(a)
		far = max(far, at)
		off = max(off, plan.Abs(catalog.Cents(at)*d.Step-(a.cents-low)))
	}
	d.Off += off
	if far == 0 {
		return
	}
	next := make([]float64, len(d.Chance)+far)
	for _, a := range part {
		to := next[offset(a):]
		for i, c := range d.Chance {
			to[i] += c * a.chance
		}
	}
	d.Chance = next
}

// Quantile is the least sum that is not exceeded with a chance of q.
func (d *Distribution) Quantile(q float64) catalog.Cents {
	sum := 0.0
	for i, c := range d.Chance {
		if sum += c; sum >= q-1e-12 {
			return d.From + catalog.Cents(i)*d.Step
		}
	}
	return d.From + catalog.Cents(len(d.Chance)-1)*d.Step
}

// Reached is the greatest sum that is reached, or more, with a chance of q.
func (d *Distribution) Reached(q float64) catalog.Cents {
	sum := 0.0
	for i := len(d.Chance) - 1; i > 0; i-- {
		if sum += d.Chance[i]; sum >= q-1e-12 {
			return d.From + catalog.Cents(i)*d.Step
		}
	}
	return d.From
}

// Within is the chance that the sum is at most v.
func (d *Distribution) Within(v catalog.Cents) float64 {
	sum := 0.0
	for i, c := range d.Chance {
		if d.From+catalog.Cents(i)*d.Step > v {
			break
		}
		sum += c
	}
	return min(sum, 1)
}

// Mean is the average sum, in cents.
func (d *Distribution) Mean() float64 {
	sum := 0.0
	for i, c := range d.Chance {
		sum += c * float64(i)
	}
	return float64(d.From) + sum*float64(d.Step)
}

// Point is a sum, the chance that it is that or above the point before, and the chance
// that it is that or less.
type Point struct {
	Cents          catalog.Cents
	Chance, Within float64
}

// Points tells the distribution by most points at most, each the highest sum of a step
// that has any chance: the quantiles lie on points or between them, and what is within a
// point is as exact as the distribution.
func (d *Distribution) Points(most int) []Point {
	wide := (len(d.Chance) + most - 1) / most
	if sums := d.possible(); sums <= most {
		wide = 1
	}
	var all []Point
	within := 0.0
	for from := 0; from < len(d.Chance); from += wide {
		p := Point{}
		for i := from; i < min(from+wide, len(d.Chance)); i++ {
			if c := d.Chance[i]; c > 0 {
				p.Cents = d.From + catalog.Cents(i)*d.Step
				p.Chance += c
			}
		}
		if p.Chance > 0 {
			within += p.Chance
			p.Within = within
			all = append(all, p)
		}
	}
	return all
}

// possible is how many sums have any chance.
func (d *Distribution) possible() int {
	n := 0
	for _, c := range d.Chance {
		if c > 0 {
			n++
		}
	}
	return n
}
