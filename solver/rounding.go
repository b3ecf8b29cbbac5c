package solver

import "math"

// rounding makes implied rows by mixed-integer rounding (Nemhauser and Wolsey, Integer and
// Combinatorial Optimization, 1988, section II.1.7; from memory). Of an inequality
//
//	sum a_j z_j <= b, all z_j whole and none below 0,
//
// every whole solution keeps, for any q > 0, with a_j = k_j q + r_j and b = k q + r (rests
// from 0 to below q),
//
//	sum (k_j (q - r) + max(0, r_j - r)) z_j <= k (q - r).
//
// What is added up are whole multiples of the rows, with the room that each leaves for one
// more z: all is reckoned in integers, so that no rounding of the linear program that
// suggested the multiples can make a row wrong.
type rounding struct{ q, rest int64 }

// of is what becomes of a coefficient.
func (f rounding) of(a int64) int64 {
	k, r := floorDiv(a, f.q)
	return k*(f.q-f.rest) + max(0, r-f.rest)
}

func floorDiv(a, q int64) (k, rest int64) {
	k, rest = a/q, a%q
	if rest < 0 {
		k, rest = k-1, rest+q
	}
	return k, rest
}

// implied is a row that every solution keeps and a relaxation may not: it follows from the
// others because picks and switches are whole. It is sum cols + sum switches <= limit.
type implied struct {
	cols     []int64 // none negative
	switches []Term  // Row is the switch
	limit    int64
	scale    float64 // its largest coefficient, at least 1
}

// Of the rest of the limit less than leastRest of a whole, or more than all but that, says
// little.
const leastRest = 0.005

// round makes an implied row of a combination, a whole of which is fineness, for the columns of
// d; r is the relaxation that the row is to cut off. Nil: there is none.
func (in *instance) round(d *domain, k *combination, r *relaxation) *implied {
	base := in.newInequality()
	in.gather(d, k, base)
	for h, v := range base.switches {
		if d.y[h] == on || d.y[h] == open && r.y[h] > 0.5 {
			base.less(v)
		}
	}
	whole, rest := floorDiv(base.limit, fineness)
	if share := float64(rest) / fineness; share < leastRest || share > 1-leastRest {
		return nil
	}
	f := rounding{fineness, rest}
	out := in.newInequality()
	out.limit, out.moved = whole*(fineness-rest), base.moved
	for c := d.alive.next(0, len(in.cols)); c < len(in.cols); c = d.alive.next(c+1, len(in.cols)) {
		out.cols[c] = f.of(base.cols[c])
	}
	for h, v := range base.switches {
		switch {
		case d.y[h] == open && r.y[h] > 0.5: // counted by its being off
			v = f.of(-v)
			out.switches[h] -= v
			out.less(v)
		case d.y[h] == open:
			out.switches[h] = f.of(v)
		}
		if d.y[h] != off {
			out.topUps[h] = f.of(base.topUps[h])
		}
	}
	in.gather(d, k.rooms(f), out)
	in.settleTopUps(d, out)
	return in.finish(d, out)
}

// rooms is the combination that takes out of a rounded inequality the room that each row
// leaves; the equations of groups leave none.
func (k *combination) rooms(f rounding) *combination {
	less := func(list []int64) []int64 {
		out := make([]int64, len(list))
		for i, m := range list {
			if m != 0 {
				out[i] = -f.of(m)
			}
		}
		return out
	}
	return &combination{row: less(k.row), link: less(k.link), min: less(k.min), need: less(k.need),
		group: make([]int64, len(k.group))}
}

// settleTopUps leaves out what is topped up, which is from 0 to the whole minimum of a
// switch that is on, and counts switches that d settles into the limit.
func (in *instance) settleTopUps(d *domain, q *inequality) {
	for h := range in.switches {
		if v := q.topUps[h]; v < 0 {
			q.switches[h] += v * in.switches[h].minimum
		}
		q.topUps[h] = 0
		if d.y[h] == on {
			q.less(q.switches[h])
		}
		if d.y[h] != open {
			q.switches[h] = 0
		}
	}
}

// mostCoef is how large coefficients of an implied row may be: as fine as counts, and so that
// all sums stay small.
const mostCoef = 1 << 28

// finish takes from the coefficients of every group the least of them, and brings all to a
// size: rounded down, with the limit, the row holds all the same. Nil: the limit is too large.
func (in *instance) finish(d *domain, q *inequality) *implied {
	most := int64(1)
	for g, span := range in.groups {
		least := int64(math.MaxInt64)
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			least = min(least, q.cols[c])
		}
		q.less(least)
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			q.cols[c] -= least
			most = max(most, q.cols[c])
		}
	}
	for _, v := range q.switches {
		most = max(most, magnitude(v))
	}
	unit := (most + mostCoef - 1) / mostCoef
	out := &implied{cols: q.cols, scale: float64(most / unit)}
	for c, v := range out.cols {
		out.cols[c] = v / unit
	}
	for h, v := range q.switches {
		if v != 0 {
			v, _ = floorDiv(v, unit)
			out.switches = append(out.switches, Term{h, v})
			out.scale = max(out.scale, float64(magnitude(v)))
		}
	}
	out.scale = max(1, out.scale)
	if out.limit, _ = floorDiv(q.limit, unit); q.moved > mostMoved || magnitude(out.limit) > Limit/16 {
		return nil
	}
	return out
}

// deep is how far beyond the row the relaxation is, by the length of its coefficients.
func (w *implied) deep(r *relaxation) float64 {
	over, square := -float64(w.limit), 0.0
	for c, v := range w.cols {
		if v != 0 {
			over += float64(v) * r.x[c]
			square += float64(v) * float64(v)
		}
	}
	for _, t := range w.switches {
		over += float64(t.Coef) * r.y[t.Row]
		square += float64(t.Coef) * float64(t.Coef)
	}
	return over / math.Sqrt(max(1, square))
}

// parallel is the cosine of two rows, by their columns.
func (w *implied) parallel(v *implied) float64 {
	dot, a, b := 0.0, 0.0, 0.0
	for c := range w.cols {
		x, y := float64(w.cols[c]), float64(v.cols[c])
		dot, a, b = dot+x*y, a+x*x, b+y*y
	}
	return dot / math.Sqrt(max(1, a*b))
}
