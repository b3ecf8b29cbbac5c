package solver

import "math"

// flatLP is the linear program of a flat instance, in the engine in Go, whose basis can be
// looked at and taken over by the next one.
type flatLP struct {
	f *flat
	m *master
	s *simplex
}

// load makes the linear program of d, in which exceeding a row is so many times as dear as
// usual, with the basis of an earlier one where there is one.
func (f *flat) load(d *domain, last *flatLP, dearer float64) *flatLP {
	m := f.in.newMaster(d, f.in.newPool(), true)
	m.dearer = dearer
	m.build()
	lp := &flatLP{f: f, m: m, s: simplexEngine{}.load(&m.lin).(*simplex)}
	m.engine = lp.s
	if last == nil {
		return lp
	}
	was := make(map[seat]int8, last.s.variables())
	for j, k := range last.seats() {
		was[k] = last.s.at[j]
	}
	at := make([]int8, lp.s.variables())
	for j, k := range lp.seats() {
		if v, ok := was[k]; ok {
			at[j] = v
		} else if j < lp.s.m {
			at[j] = basic
		}
	}
	lp.s.resume(at)
	return lp
}

// seat says what a variable of the linear program stands for: the room in the equation of a
// group, in a row, a link, a minimum or a need; a column; a switch; what is topped up; and
// how far a row or link is exceeded.
type seat struct {
	kind byte
	at   int
	row  *implied
}

// seats are those of all variables, in the engine's order.
func (lp *flatLP) seats() []seat {
	m, first := lp.m, len(lp.f.plain.rows)
	out := make([]seat, lp.s.variables())
	put := func(kind byte, places []int, offset int) {
		for i, at := range places {
			if at >= 0 {
				out[offset+at] = seat{kind: kind, at: i}
			}
		}
	}
	put('g', m.conv, 0)
	put('r', m.rowAt, 0)
	put('l', m.linkAt, 0)
	put('m', m.minAt, 0)
	put('n', m.needAt, 0)
	for i, w := range lp.f.implied {
		if at := m.rowAt[first+i]; at >= 0 {
			out[at] = seat{kind: 'r', row: w}
		}
	}
	put('y', m.yAt, lp.s.m)
	put('t', m.tAt, lp.s.m)
	for _, k := range m.vars {
		out[lp.s.m+k.at] = seat{kind: 'c', at: k.cols[0]}
	}
	slack := m.slack
	for _, at := range m.rowAt {
		if at >= 0 {
			out[lp.s.m+slack[0]], slack = seat{'R', out[at].at, out[at].row}, slack[1:]
		}
	}
	for l, at := range m.linkAt {
		if at >= 0 && m.in.links[l].group >= len(m.in.groups) {
			out[lp.s.m+slack[0]], slack = seat{kind: 'L', at: l}, slack[1:]
		}
	}
	return out
}

// inUse are the implied rows that leave no room.
func (lp *flatLP) inUse() (out []*implied) {
	first := len(lp.f.plain.rows)
	for i, w := range lp.f.implied {
		if at := lp.m.rowAt[first+i]; at >= 0 && lp.s.at[at] != basic {
			out = append(out, w)
		}
	}
	return out
}

// resume takes a basis over: where every variable is, as far as it can be there.
func (s *simplex) resume(at []int8) {
	s.head = s.head[:0]
	for j, v := range at {
		s.at[j] = s.side(j)
		switch {
		case v == basic && len(s.head) < s.m:
			s.head, s.at[j] = append(s.head, int32(j)), basic
		case v == atUpper && s.at[j] == atLower && !math.IsInf(s.up[j], 1):
			s.at[j] = atUpper
		}
	}
	for i := 0; len(s.head) < s.m; i++ {
		if s.at[i] != basic {
			s.head, s.at[i] = append(s.head, int32(i)), basic
		}
	}
	for p := range s.weight {
		s.weight[p] = 1
	}
}
