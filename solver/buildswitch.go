package solver

// addSwitchVars makes a variable per open switch and per minimum that may have
// to be topped up.
func (m *master) addSwitchVars(inf float64) {
	in := m.in
	m.yAt = make([]int, len(in.switches))
	m.tAt = make([]int, len(in.switches))
	for h := range in.switches {
		s := &in.switches[h]
		m.yAt[h], m.tAt[h] = -1, -1
		charge := 0.0
		if m.costs && in.objective(h) {
			charge = 1
		}
		if m.d.y[h] == open {
			m.yAt[h] = m.addVar(charge*float64(s.fixed), 1, m.switchColumn(h))
		}
		if m.minAt[h] >= 0 {
			col := []entry{{m.minAt[h], -1}}
			for r := range in.rows {
				if in.pays(r, h) && m.rowAt[r] >= 0 {
					col = append(col, entry{m.rowAt[r], float64(s.minimum) / in.scale[r]})
				}
			}
			m.tAt[h] = m.addVar(charge*float64(s.minimum), inf, col)
		}
	}
}

func (m *master) switchColumn(h int) []entry {
	in := m.in
	s := &in.switches[h]
	var col []entry
	at := map[int]int{}
	put := func(row int, v float64) {
		if row < 0 || v == 0 {
			return
		}
		if i, ok := at[row]; ok {
			col[i].coef += v
			return
		}
		at[row] = len(col)
		col = append(col, entry{row, v})
	}
	for _, t := range s.terms {
		put(m.rowAt[t.Row], float64(t.Coef)/in.scale[t.Row])
	}
	for r := range in.rows {
		if in.pays(r, h) {
			put(m.rowAt[r], float64(s.fixed)/in.scale[r])
		}
	}
	for l, k := range in.links {
		if k.sw == h {
			put(m.linkAt[l], -1)
		}
	}
	put(m.minAt[h], 1)
	for i, k := range in.needPairs() {
		if k.group == h {
			put(m.needAt[i], 1)
		}
		if k.sw == h {
			put(m.needAt[i], -1)
		}
	}
	return col
}
