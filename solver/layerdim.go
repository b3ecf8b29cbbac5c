package solver

// dim is what partial picks are compared by: what they take up of a row, or lack of the
// minimum of a switch.
type dim struct {
	row, sw int // the other -1
	small   bool
	limit   int64
	charges int64   // the most that charges and switches may still add
	least   []int64 // per stage, what it and those after it add at least
	most    []int64
}

// findBits gives a bit to every switch that may be on or off, depending on the columns
// picked. False: there are too many.
func (l *layering) findBits() bool {
	in, d := l.in, l.d
	count, sure := make([]int, len(in.switches)), make([]bool, len(in.switches))
	may := make([]bool, len(in.switches))
	for g, span := range in.groups {
		clear(count)
		n := 0
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			n++
			for _, h := range in.cols[c].needs {
				count[h]++
				may[h] = true
			}
		}
		for h, v := range count {
			sure[h] = sure[h] || v == n && n > 0
		}
	}
	l.bit = make([]int, len(in.switches))
	for h := range in.switches {
		l.bit[h] = -1
		if may[h] && !sure[h] && d.y[h] != off {
			l.bit[h] = len(l.sw)
			l.sw = append(l.sw, h)
		}
	}
	return len(l.sw) <= 64
}

// findDims lists what partial picks are compared by: rows that may be broken, minimums that
// may be missed.
func (l *layering) findDims() {
	in, d := l.in, l.d
	a := in.activity(d)
	least, most := in.leastSwitches(d), in.mostSwitches(d)
	for r := range in.rows {
		if k := &in.rows[r]; a.most[r] > k.limit {
			l.dims = append(l.dims, dim{row: r, sw: -1, small: !k.dense && !k.charges,
				limit: k.limit - least[r], charges: most[r] - least[r]})
		}
	}
	for h := range in.switches {
		if in.switches[h].minimum > 0 && d.y[h] != off {
			l.dims = append(l.dims, dim{row: -1, sw: h, limit: Limit})
		}
	}
	l.turned, l.foregone = make([][]Term, len(l.sw)), make([][]Term, len(l.sw))
	for b, h := range l.sw {
		if d.y[h] == on {
			continue // in the limits as it is
		}
		for x := range l.dims {
			l.turned[b] = append(l.turned[b], l.part(h, x, 1)...)
			l.foregone[b] = append(l.foregone[b], l.part(h, x, -1)...)
		}
	}
}

// part is what an open switch takes up of a dim beyond the least, which the limits count with:
// once it is on what it takes, once it is off (sign -1) what it would have given.
func (l *layering) part(h, x int, sign int64) []Term {
	r := l.dims[x].row
	if r < 0 {
		return nil
	}
	s := &l.in.switches[h]
	v := max(0, sign*coefOf(s.terms, r))
	if l.in.pays(r, h) {
		v += max(0, sign*s.fixed)
	}
	if v == 0 {
		return nil
	}
	return []Term{{x, v}}
}

// reaches works out what every stage and those after it add to each dim.
func (l *layering) reaches() {
	n := len(l.stages)
	for x := range l.dims {
		l.dims[x].least, l.dims[x].most = make([]int64, n+1), make([]int64, n+1)
	}
	lo, hi, count := make([]int64, len(l.dims)), make([]int64, len(l.dims)), make([]int, len(l.dims))
	for i := n - 1; i >= 0; i-- {
		clear(count)
		for _, k := range l.stages[i].choices {
			for _, t := range k.terms {
				if count[t.Row] == 0 {
					lo[t.Row], hi[t.Row] = t.Coef, t.Coef
				}
				lo[t.Row], hi[t.Row] = min(lo[t.Row], t.Coef), max(hi[t.Row], t.Coef)
				count[t.Row]++
			}
		}
		for x := range l.dims {
			d := &l.dims[x]
			if count[x] < len(l.stages[i].choices) {
				if count[x] == 0 {
					lo[x], hi[x] = 0, 0
				}
				lo[x], hi[x] = min(lo[x], 0), max(hi[x], 0)
			}
			d.least[i], d.most[i] = d.least[i+1]+lo[x], d.most[i+1]+hi[x]
		}
	}
}

// findEnds finds after which stage a switch is as it will be: no column after it needs it or
// counts towards its minimum, and no voluntary switch may yet turn it on.
func (l *layering) findEnds() {
	in := l.in
	never := make([]bool, len(in.switches))
	for h := range in.switches {
		if s := &in.switches[h]; s.voluntary && l.d.y[h] != off {
			never[h] = true
			for _, n := range s.needs {
				never[n] = true
			}
		}
	}
	last := make([]int, len(in.switches))
	for h := range last {
		last[h] = -1
	}
	for i := range l.stages {
		for _, g := range in.blocks[l.stages[i].block].groups {
			for c := in.first(l.d, g); c < in.groups[g][1]; c = l.d.alive.next(c+1, in.groups[g][1]) {
				for _, h := range in.cols[c].needs {
					last[h] = i
				}
			}
		}
	}
	for h, i := range last {
		if i >= 0 && !never[h] && l.d.y[h] != off {
			l.stages[i].ends = append(l.stages[i].ends, h)
		}
	}
}
