package solver

import "math"

// prices are what common things cost a part: per common row and unit, per part and
// shared switch for turning it on, and per shared switch how much a unit of load is
// worth towards its minimum, 0 to 1. Any prices that are not negative give a bound:
//
//	sum over parts of the least (cost + row prices + switch prices - worth of loads)
//	- sum over rows of price x limit
//	+ sum over shared switches of min(0, fixed + worth x minimum - prices of all parts)
//
// since a solution pays for a shared switch at least fixed + worth x (minimum - loads),
// and uses of a row by all parts together stay within its limit (Lagrangian duality).
// Money is counted in shares of a unit here, so that prices need not be whole.
type prices struct {
	row   []int64
	sw    [][]int64 // per part, per shared switch
	worth []float64
}

// shares is how many shares a unit of money has.
const shares = 1000

// zeroPrices are prices of nothing.
func (t *decomposition) zeroPrices() *prices {
	y := &prices{row: make([]int64, len(t.rows)), worth: make([]float64, len(t.shared)), sw: make([][]int64, len(t.parts))}
	for n := range y.sw {
		y.sw[n] = make([]int64, len(t.shared))
	}
	return y
}

// change puts prices, and what a node rules out, on a part.
func (t *decomposition) change(n int, y *prices, d *partNode) Change {
	q := t.parts[n]
	ch := Change{Ban: d.ban[n]}
	for _, u := range q.users {
		cost := u.cost
		for _, m := range u.terms {
			cost += y.row[m.Row] * m.Coef
		}
		for _, l := range u.loads {
			cost -= portion(y.worth[l.Switch], l.Amount*shares, 1)
		}
		if cost != u.cost {
			ch.Costs = append(ch.Costs, CostTo{u.at, cost})
		}
	}
	for k, h := range q.swAt {
		if h < 0 {
			continue
		}
		if d.sw[k] == off {
			ch.Ban = append(ch.Ban[:len(ch.Ban):len(ch.Ban)], q.needs[k]...)
		} else if price := y.sw[n][k]; price != 0 && d.sw[k] == open {
			ch.Fixed = append(ch.Fixed, FixedTo{h, price})
		}
	}
	for _, s := range q.priced {
		fixed := s.fixed
		for _, m := range s.terms {
			fixed += y.row[m.Row] * m.Coef
		}
		ch.Fixed = append(ch.Fixed, FixedTo{s.sw, fixed})
	}
	for k, r := range q.rowAt {
		if r >= 0 && d.most[n] != nil && d.most[n][k] < q.prob.Rows[r].Limit {
			ch.Limits = append(ch.Limits, LimitTo{r, d.most[n][k]})
		}
	}
	return ch
}

// bound is the bound of a node, given what the parts come to at least, all in shares.
func (t *decomposition) bound(y *prices, d *partNode, least []int64) int64 {
	sum := int64(0)
	for _, v := range least {
		sum += v
	}
	for k, r := range t.rows {
		sum -= y.row[k] * t.p.Rows[r].Limit
	}
	for k, h := range t.shared {
		s := &t.p.Switches[h]
		on0 := s.Fixed*shares + portion(y.worth[k], s.Minimum*shares, 0)
		switch d.sw[k] {
		case on:
			sum += on0
		case open:
			for n := range t.parts {
				on0 -= y.sw[n][k]
			}
			sum += min(0, on0)
		}
	}
	return ceilDiv(sum, shares)
}

// ceilDiv is a divided by b > 0, rounded up.
func ceilDiv(a, b int64) int64 {
	q := a / b
	if a%b > 0 {
		q++
	}
	return q
}

// portion is worth x amount, rounded down, or up with up = 1: exactly, since a bound
// that is made of them must not be too high by even one share. The rounding error of a
// product of floats is a float, and a fused multiplication gives it; amounts are within
// Limit, so that a product that is no whole number is not rounded to one, unless the
// error says so.
func portion(worth float64, amount, up int64) int64 {
	p := worth * float64(amount)
	rest := math.FMA(worth, float64(amount), -p)
	v := math.Floor(p)
	switch {
	case v == p && rest < 0:
		return int64(v) - 1 + up
	case v == p && rest == 0:
		return int64(v)
	}
	return int64(v) + up
}

// whole is a price that is not negative as a whole number, at most so high.
func whole(v float64, most int64) int64 {
	if v < float64(most) {
		return min(most, int64(math.Round(v)))
	}
	return most
}
