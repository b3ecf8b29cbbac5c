package solver

import (
	"math"
)

// build lays out the linear program of the master.
func (m *master) build() {
	in := m.in
	inf := math.Inf(1)
	newRow := func(lo, hi float64) int {
		m.lin.rowLo = append(m.lin.rowLo, lo)
		m.lin.rowHi = append(m.lin.rowHi, hi)
		return len(m.lin.rowLo) - 1
	}
	m.conv = make([]int, len(in.blocks))
	for i := range in.blocks {
		m.conv[i] = newRow(1, 1)
	}
	m.rowAt = make([]int, len(in.rows))
	a := in.activity(m.d)
	for r := range in.rows {
		m.rowAt[r] = -1
		if a.most[r] > in.rows[r].limit {
			m.rowAt[r] = newRow(-inf, float64(m.right(r))/in.scale[r])
		}
	}
	m.linkRows(newRow, inf)
	m.sum = make([]float64, len(m.lin.rowLo))
	m.addWholeBlocks()
	m.takePicks()
	m.addSwitchVars(inf)
	m.addSlacks(inf)
}

// right is a row's limit less what settled switches contribute to it.
func (m *master) right(r int) int64 {
	limit := m.in.rows[r].limit
	for h := range m.in.switches {
		if m.d.y[h] != on {
			continue
		}
		s := &m.in.switches[h]
		limit -= coefOf(s.terms, r)
		if m.in.pays(r, h) {
			limit -= s.fixed
		}
	}
	return limit
}

func (m *master) linkRows(newRow func(lo, hi float64) int, inf float64) {
	in, d := m.in, m.d
	used := make([]bool, len(in.links))
	for c := d.alive.next(0, len(in.cols)); c < len(in.cols); c = d.alive.next(c+1, len(in.cols)) {
		for _, l := range in.cols[c].links {
			used[l] = true
		}
	}
	m.linkAt = make([]int, len(in.links))
	for l, k := range in.links {
		m.linkAt[l] = -1
		if used[l] && d.y[k.sw] == open {
			m.linkAt[l] = newRow(-inf, 0)
		}
	}
	m.minAt = make([]int, len(in.switches))
	for h := range in.switches {
		m.minAt[h] = -1
		if s := &in.switches[h]; s.minimum > 0 && d.y[h] != off {
			hi := 0.0
			if d.y[h] == on {
				hi = -1
			}
			m.minAt[h] = newRow(-inf, hi) // scaled by the minimum
		}
	}
	pairs := in.needPairs()
	m.needAt = make([]int, len(pairs))
	for i, k := range pairs {
		m.needAt[i] = -1
		if d.y[k.group] == open && d.y[k.sw] == open {
			m.needAt[i] = newRow(-inf, 0)
		}
	}
}

func (m *master) addVar(cost, up float64, col []entry) int {
	m.lin.cost = append(m.lin.cost, cost)
	m.lin.lo = append(m.lin.lo, 0)
	m.lin.up = append(m.lin.up, up)
	m.lin.cols = append(m.lin.cols, col)
	return len(m.lin.cost) - 1
}

// addWholeBlocks makes one variable per column of the blocks that are in the
// linear program whole.
func (m *master) addWholeBlocks() {
	in := m.in
	for i := range in.blocks {
		if in.whole(i) {
			g := in.blocks[i].groups[0]
			for c := in.first(m.d, g); c < in.groups[g][1]; c = m.d.alive.next(c+1, in.groups[g][1]) {
				m.addPick(i, []int{c})
			}
		}
	}
}

// takePicks makes one variable per pick of the pool that is new and possible in
// the widest domain.
func (m *master) takePicks() {
	for i, picks := range m.pool.combos {
		for _, pick := range picks[m.taken[i]:] {
			if m.in.aliveAll(m.d, pick) {
				m.addPick(i, pick)
			}
		}
		m.taken[i] = len(picks)
	}
}

// addPick adds up the columns of a combination.
func (m *master) addPick(i int, cols []int) {
	in, sum := m.in, m.sum
	cost := 0.0
	var touched []int
	put := func(at int, v float64) {
		if at < 0 || v == 0 {
			return
		}
		if sum[at] == 0 {
			touched = append(touched, at)
		}
		sum[at] += v
	}
	for _, c := range cols {
		k := &in.cols[c]
		if m.costs {
			cost += float64(k.cost)
		}
		for _, t := range k.terms {
			put(m.rowAt[t.Row], float64(t.Coef)/in.scale[t.Row])
		}
		for _, l := range k.links {
			put(m.linkAt[l], 1)
		}
		for _, l := range k.loads {
			if m.minAt[l.Switch] >= 0 {
				put(m.minAt[l.Switch], -float64(l.Amount)/float64(in.switches[l.Switch].minimum))
			}
		}
	}
	col := make([]entry, 0, len(touched)+1)
	col = append(col, entry{m.conv[i], 1})
	for _, at := range touched {
		if sum[at] != 0 {
			col = append(col, entry{at, sum[at]})
		}
		sum[at] = 0
	}
	m.vars = append(m.vars, variable{i, cols, m.addVar(cost, math.Inf(1), col)})
}

// addSlacks lets every row be broken at a price far above any saving, and with it the
// links of rows: they take for granted that it isn't.
func (m *master) addSlacks(inf float64) {
	price := 1.0
	if m.costs {
		price = m.dear() * m.dearer
	}
	for _, at := range m.rowAt {
		if at >= 0 {
			m.slack = append(m.slack, m.addVar(price, inf, []entry{{at, -1}}))
		}
	}
	for l, at := range m.linkAt {
		if at >= 0 && m.in.links[l].group >= len(m.in.groups) {
			m.slack = append(m.slack, m.addVar(price, inf, []entry{{at, -1}}))
		}
	}
}

// dear is ten times the widest spread of costs there is.
func (m *master) dear() float64 {
	in := m.in
	spread := int64(in.widest)
	for h := range in.switches {
		spread = max(spread, magnitude(in.switches[h].fixed), in.switches[h].minimum)
	}
	return 10 * float64(spread)
}

// Where a relaxation would rather exceed a row than keep it, though it can, the price of that
// is raised so many times at a time; to no more than mostDear, for larger costs leave nothing
// of the others.
const (
	raiseBy  = 1000
	mostDear = 1e15
)

// raise makes exceeding rows dearer. False: it is dear enough. Without it the bound of a
// relaxation says next to nothing where hardly anything is left of a row: a mean that
// few sets reach took tens of thousands of nodes.
func (m *master) raise() bool {
	if m.dear()*m.dearer*raiseBy > mostDear {
		return false
	}
	m.dearer *= raiseBy
	for _, v := range m.slack {
		m.lin.cost[v] *= raiseBy
	}
	m.close()
	m.engine = nil
	return true
}
