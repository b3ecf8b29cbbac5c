package solver

import (
	"math"
	mathbits "math/bits"
)

// judge brings what q, which is p with choice k of stage i, has taken up to what matters,
// and says whether it may lead to something of interest.
func (l *layering) judge(i int, p *partial, k *choice, q *partial, use []int64, upper float64) bool {
	for n := range l.judges {
		q.val[n] = p.val[n] + k.rc[n] + l.turning(n, i, p, k, q)
	}
	if !l.clamp(i, q, use) || !l.end(i, q, use) {
		return false
	}
	for n := range l.judges {
		j := &l.judges[n]
		u := 0
		if j.dim >= 0 {
			d := &l.dims[j.dim]
			room := d.limit - use[j.dim] - d.least[i+1]
			if room < 0 {
				return false
			}
			u = int(min(int64(j.units), room/j.unit))
		}
		if q.val[n]+j.table[i+1][u]-2*j.b.err > upper {
			return false
		}
	}
	return true
}

// turning is what the bound rises by with the switches that choice k turns on, and with the
// links it misses of those that are on.
func (l *layering) turning(n, i int, p *partial, k *choice, q *partial) (rise float64) {
	j := &l.judges[n]
	for fresh := k.mask &^ p.mask; fresh != 0; fresh &= fresh - 1 {
		b := mathbits.TrailingZeros64(fresh)
		if h := l.sw[b]; l.d.y[h] == open {
			rise += math.Max(0, j.b.s[h]) + j.early[b][i]
		}
	}
	for _, m := range k.miss[n] {
		if q.mask>>m.bit&1 == 1 {
			rise += m.by
		}
	}
	return rise
}

// clamp counts as taken up what nothing later can come to, and adds what leaving it is worth.
// False: a row is sure to be broken.
func (l *layering) clamp(i int, q *partial, use []int64) bool {
	for x := range use {
		d := &l.dims[x]
		if use[x]+d.least[i+1] > d.limit {
			return false
		}
		safe := d.limit - d.most[i+1] - d.charges
		if d.row < 0 {
			safe = -l.in.switches[d.sw].minimum
		}
		if use[x] < safe {
			for n := range l.judges {
				q.val[n] += l.judges[n].price[x] * float64(safe-use[x])
			}
			use[x] = safe
		}
	}
	return true
}

// end charges what is settled about switches after stage i. False: one has to be on, and
// is not.
func (l *layering) end(i int, q *partial, use []int64) bool {
	in := l.in
	for _, h := range l.stages[i].ends {
		s, b := &in.switches[h], l.bit[h]
		charge := int64(0)
		if b >= 0 {
			if q.mask>>b&1 == 0 {
				if l.d.y[h] == on {
					return false
				}
				for _, t := range l.foregone[b] {
					use[t.Row] += t.Coef
				}
				l.short(h, use)
				continue
			}
			q.mask &^= 1 << b
			charge = s.fixed
		}
		short := l.short(h, use)
		if in.objective(h) {
			q.cost += charge + short
		}
		for x := range l.dims {
			if r := l.dims[x].row; short > 0 && r >= 0 && in.pays(r, h) {
				use[x] += short
			}
		}
	}
	return true
}

// short is what is lacking of a switch's minimum, which is of no more account then.
func (l *layering) short(h int, use []int64) (short int64) {
	for x := range l.dims {
		if l.dims[x].sw == h {
			short = l.in.switches[h].minimum + use[x]
			use[x] = 0
		}
	}
	return short
}
