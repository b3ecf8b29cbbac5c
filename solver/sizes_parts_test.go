package solver

import "math/rand/v2"

// enlarge gives a problem of small numbers those of the sizes of jobs: each row, the
// money and each rule in a scale of its own, with a little on top, so that many are
// nearly equal. What was nothing stays nothing.
func enlarge(r *rand.Rand, p *Problem) {
	scales := func(of ...int64) func(v int64) int64 {
		k := of[r.IntN(len(of))]
		return func(v int64) int64 {
			if v == 0 || k == 1 {
				return v
			}
			return v*k + r.Int64N(3) - 1
		}
	}
	money := scales(1, 100, 99_991, 10_000_000)
	rows := make([]func(int64) int64, len(p.Rows))
	for i := range p.Rows {
		rows[i] = scales(1, 3, 2_700, 55_296, 690_775, 1<<32, 1_000_000_000_000)
		if p.Rows[i].Charges {
			rows[i] = money
		}
		p.Rows[i].Limit = rows[i](p.Rows[i].Limit)
	}
	terms := func(list []Term) {
		for i := range list {
			list[i].Coef = rows[list[i].Row](list[i].Coef)
		}
	}
	for h := range p.Switches {
		s := &p.Switches[h]
		s.Fixed, s.Minimum = money(s.Fixed), money(s.Minimum)
		terms(s.Terms)
	}
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			k := &p.Groups[g].Columns[c]
			k.Cost = money(k.Cost)
			terms(k.Terms)
			for i := range k.Loads {
				k.Loads[i].Amount = money(k.Loads[i].Amount)
			}
		}
	}
	for i := range p.WithinTolerance {
		values := scales(1, 1_000, 55_296, 1<<40)
		p.WithinTolerance[i].Tolerance = values(p.WithinTolerance[i].Tolerance)
		for _, list := range p.WithinTolerance[i].Values {
			for j := range list {
				list[j] = values(list[j])
			}
		}
	}
}

// realParts makes a small problem of parts with numbers of the sizes of jobs.
func realParts(r *rand.Rand) *Problem {
	p := randomParts(r)
	enlarge(r, p)
	return p
}
