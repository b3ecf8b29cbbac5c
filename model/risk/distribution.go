package risk

import (
	"sort"

	"brightset/catalog"
)

// Distribution is how likely every sum is that independent parts may add up to. The
// sums are of money, but for that of the grades by weight, which are in hundredths of
// hundredths. Where there are too many to tell each apart they are told by steps: once none
// of them higher than it is, and once none lower, so that what is said of a chance holds on
// either side.
type Distribution struct {
	Step      catalog.Cents // the sums are told by steps of this; 1 is exact
	Off       catalog.Cents // no sum is off by more than this for being told by steps; 0 is exact
	low, high []atom        // the sums, rising, each at most and at least what it is; the same where exact
	mean      float64
}

// Between is a chance that is known to lie between two; they are one where it is exact.
type Between struct{ Least, Most float64 }

// sure is what is certain.
var sure = Between{1, 1}

// Quantile is the least sum that is not exceeded with a chance of q. Where sums are told by
// steps it is one that is not, and may not be the least.
func (d *Distribution) Quantile(q float64) catalog.Cents {
	sum := 0.0
	for _, a := range d.high {
		if sum += a.chance; sum >= q-1e-12 {
			return a.cents
		}
	}
	return d.high[len(d.high)-1].cents
}

// Reached is the greatest sum that is reached, or more, with a chance of q. Where sums are
// told by steps it is one that is, and may not be the greatest.
func (d *Distribution) Reached(q float64) catalog.Cents {
	sum := 0.0
	for i := len(d.low) - 1; i > 0; i-- {
		if sum += d.low[i].chance; sum >= q-1e-12 {
			return d.low[i].cents
		}
	}
	return d.low[0].cents
}

// Within is the chance that the sum is at most v.
func (d *Distribution) Within(v catalog.Cents) Between {
	within := func(sums []atom) float64 { return chanceOf(sums, 0, above(sums, v)) }
	return Between{within(d.high), within(d.low)}
}

// AtLeast is the chance that the sum is v or more.
func (d *Distribution) AtLeast(v catalog.Cents) Between {
	reached := func(sums []atom) float64 { return chanceOf(sums, above(sums, v-1), len(sums)) }
	return Between{reached(d.low), reached(d.high)}
}

// above is where the sums above v begin.
func above(sums []atom, v catalog.Cents) int {
	return sort.Search(len(sums), func(i int) bool { return sums[i].cents > v })
}

// chanceOf is the chance of some of the sums; of all of them it is 1, whatever adding them up leaves.
func chanceOf(sums []atom, from, to int) float64 {
	if to-from == len(sums) {
		return 1
	}
	sum := 0.0
	for _, a := range sums[from:to] {
		sum += a.chance
	}
	return min(sum, 1)
}

// Mean is the average sum, in cents, exact in any case.
func (d *Distribution) Mean() float64 { return d.mean }

// Point is a sum, the chance that it is that or above the point before, and the chance
// that it is that or less.
type Point struct {
	Cents          catalog.Cents
	Chance, Within float64
}

// Points tells the distribution by most points at most, each the highest sum of a step
// that has any chance: the quantiles lie on points or between them, and what is within a
// point is as exact as the distribution, and no more than it is.
func (d *Distribution) Points(most int) []Point {
	first := d.high[0].cents
	wide := (d.high[len(d.high)-1].cents-first)/catalog.Cents(most) + 1
	if len(d.high) <= most {
		wide = 1
	}
	var all []Point
	within := 0.0
	for from := 0; from < len(d.high); {
		end := above(d.high, first+((d.high[from].cents-first)/wide+1)*wide-1)
		p := Point{Cents: d.high[end-1].cents}
		for _, a := range d.high[from:end] {
			p.Chance += a.chance
		}
		within += p.Chance
		p.Within = within
		all = append(all, p)
		from = end
	}
	return all
}
