package solver

// least is the least that the total can come to.
func (c *chooser) least() int64 {
	sum := c.t.total(c.t.charges())
	for _, h := range c.open {
		sum += min(0, c.effects[h].cost.lo)
	}
	return sum
}

// sets are the open switches, those together that can be in each other's way.
func (c *chooser) sets() [][]int {
	parent := map[int]int{}
	var root func(h int) int
	root = func(h int) int {
		if p, ok := parent[h]; ok && p != h {
			return root(p)
		}
		return h
	}
	first := map[int]int{} // of a row, or below 0 of a switch
	join := func(key, h int) {
		if f, ok := first[key]; ok {
			parent[max(root(f), root(h))] = min(root(f), root(h))
		} else {
			first[key] = h
		}
	}
	for _, h := range c.open {
		for _, k := range c.effects[h].rows {
			if c.row[k.row].hi > c.t.in.rows[k.row].limit {
				join(k.row, h)
			}
		}
		for _, n := range c.t.in.switches[h].needs {
			if c.sharers[n] > 1 {
				join(-1-n, h)
			}
		}
	}
	var out [][]int
	at := map[int]int{}
	for _, h := range c.open {
		r := root(h)
		if _, ok := at[r]; !ok {
			at[r] = len(out)
			out = append(out, nil)
		}
		out[at[r]] = append(out[at[r]], h)
	}
	return out
}

// rowsOf are the rows that a set has a say in. Those of another are none of its own,
// or have room for all.
func (c *chooser) rowsOf(set []int) []int {
	var out []int
	for _, h := range set {
		for _, k := range c.effects[h].rows {
			if !contains(out, k.row) {
				out = append(out, k.row)
			}
		}
	}
	return out
}
