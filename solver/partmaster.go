package solver

import "math"

// mixture is the linear program over the plans found so far: every part takes a mixture
// of its plans, within the common rows, and pays for the shared switches.
type mixture struct {
	value  float64
	y      []float64   // per shared switch
	weight [][]float64 // per part, per plan of the pool
	prices *prices
}

// mix solves it for the plans that a node leaves possible. A part without any takes one
// at a price that is far above any saving. Nil if the engine fails.
func (t *decomposition) mix(d *partNode) (*mixture, error) {
	b := &mixer{t: t, d: d}
	b.rows()
	b.variables()
	sol, ok, err := b.l.solve(t.leave.solves())
	if err != nil || !ok {
		return nil, err
	}
	out := &mixture{value: sol.value, y: make([]float64, len(t.shared)), weight: make([][]float64, len(t.parts))}
	for n := range t.parts {
		out.weight[n] = make([]float64, len(t.pool[n]))
		for i, v := range b.plan[n] {
			if v >= 0 {
				out.weight[n][i] = sol.x[v]
			}
		}
	}
	for k, v := range b.y {
		out.y[k] = sol.x[v]
	}
	out.prices = b.prices(sol.dual)
	return out, nil
}

// mixer lays that linear program out.
type mixer struct {
	t    *decomposition
	d    *partNode
	l    linear
	conv []int
	row  []int
	link [][]int // per part, per shared switch
	min  []int   // per shared switch, -1 without a minimum
	plan [][]int // per part, per plan, its variable, -1 if it is ruled out
	y    []int
}

func (b *mixer) newRow(lo, hi float64) int {
	b.l.rowLo, b.l.rowHi = append(b.l.rowLo, lo), append(b.l.rowHi, hi)
	return len(b.l.rowLo) - 1
}

func (b *mixer) rows() {
	inf := math.Inf(1)
	for range b.t.parts {
		b.conv = append(b.conv, b.newRow(1, 1))
	}
	for _, r := range b.t.rows {
		b.row = append(b.row, b.newRow(-inf, float64(b.t.p.Rows[r].Limit)))
	}
	for n := range b.t.parts {
		b.link = append(b.link, nil)
		for range b.t.shared {
			b.link[n] = append(b.link[n], b.newRow(-inf, 0))
		}
	}
	for k, h := range b.t.shared {
		b.min = append(b.min, -1)
		if b.t.p.Switches[h].Minimum > 0 {
			b.min[k] = b.newRow(-inf, 0)
		}
	}
}

func (b *mixer) newVar(cost, lo, up float64, col []entry) int {
	b.l.cost, b.l.lo, b.l.up = append(b.l.cost, cost), append(b.l.lo, lo), append(b.l.up, up)
	b.l.cols = append(b.l.cols, col)
	return len(b.l.cost) - 1
}

func (b *mixer) variables() {
	t, inf := b.t, math.Inf(1)
	for n, pool := range t.pool {
		b.plan = append(b.plan, make([]int, len(pool)))
		for i, k := range pool {
			b.plan[n][i] = -1
			if k.within(n, b.d) {
				b.plan[n][i] = b.newVar(float64(k.cost), 0, inf, b.column(n, k))
			}
		}
		b.newVar(t.dear, 0, inf, []entry{{b.conv[n], 1}})
	}
	for k, h := range t.shared {
		s := &t.p.Switches[h]
		var col []entry
		for n := range t.parts {
			col = append(col, entry{b.link[n][k], -1})
		}
		if b.min[k] >= 0 {
			col = append(col, entry{b.min[k], 1})
			b.newVar(float64(s.Minimum), 0, inf, []entry{{b.min[k], -1}})
		}
		lo, up := 0.0, 1.0
		switch b.d.sw[k] {
		case off:
			up = 0
		case on:
			lo = 1
		}
		b.y = append(b.y, b.newVar(float64(s.Fixed), lo, up, col))
	}
}

func (b *mixer) column(n int, k *partPlan) []entry {
	col := []entry{{b.conv[n], 1}}
	for _, m := range k.use {
		col = append(col, entry{b.row[m.Row], float64(m.Coef)})
	}
	for s, on := range k.on {
		if !on {
			continue
		}
		col = append(col, entry{b.link[n][s], 1})
		if b.min[s] >= 0 && k.load[s] > 0 {
			col = append(col, entry{b.min[s], -float64(k.load[s]) / float64(b.t.p.Switches[b.t.shared[s]].Minimum)})
		}
	}
	return col
}

// prices turns duals into prices: shares of a unit, none negative, those of a switch
// adding up to what it costs where the linear program says so.
func (b *mixer) prices(dual []float64) *prices {
	y := b.t.zeroPrices()
	get := func(row int) float64 { return math.Max(0, -dual[row]) }
	for k, r := range b.row {
		y.row[k] = whole(get(r)*shares, b.t.caps[k])
	}
	for k, h := range b.t.shared {
		s := &b.t.p.Switches[h]
		if b.min[k] >= 0 {
			y.worth[k] = math.Min(1, get(b.min[k])/float64(s.Minimum))
		}
		left := s.Fixed*shares + portion(y.worth[k], s.Minimum*shares, 0)
		for n := range b.t.parts {
			y.sw[n][k] = whole(get(b.link[n][k])*shares, left)
			left -= y.sw[n][k]
		}
		for n := 0; left > 0 && left <= int64(len(b.t.parts)) && n < len(b.t.parts); n++ {
			if y.sw[n][k] > 0 { // what rounding took away
				y.sw[n][k]++
				left--
			}
		}
	}
	return y
}
