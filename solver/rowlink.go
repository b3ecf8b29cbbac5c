package solver

// rowLinks adds, beside the links of groups, those of rows that one column at most has a
// share in: of its columns that need a switch one at most is picked, so that together they
// are no more than what the switch is. Without them a relaxation puts half a piece into
// each of two places, and pays half of what the piece comes with. Links of a row whose
// columns are all of one group would say nothing that the group's own does not.
func (in *instance) rowLinks() {
	one := in.oneAtMost()
	n := len(in.switches)
	groupOf := make([]int32, len(in.rows)*n) // per row and switch: of the columns there; several: -2
	for i := range groupOf {
		groupOf[i] = -1
	}
	in.shares(one, func(c, r, h int) {
		if at := &groupOf[r*n+h]; *at == -1 {
			*at = int32(in.cols[c].group)
		} else if *at != int32(in.cols[c].group) {
			*at = -2
		}
	})
	number := make([]int32, len(groupOf)) // of the link, and one more
	more := make([]int, 0, len(in.cols))
	last, from := -1, 0
	in.shares(one, func(c, r, h int) {
		at := r*n + h
		if groupOf[at] != -2 {
			return
		}
		if number[at] == 0 {
			in.links = append(in.links, link{len(in.groups) + in.rows[r].orig, h})
			number[at] = int32(len(in.links))
		}
		if c != last {
			last, from = c, len(more)
			more = append(more, in.cols[c].links...)
		}
		more = append(more, int(number[at])-1)
		in.cols[c].links = more[from:len(more):len(more)]
	})
}

// shares goes through the columns with a share in a row that has one at most, and the
// switches they need.
func (in *instance) shares(one []bool, visit func(c, r, h int)) {
	for c := range in.cols {
		for _, t := range in.cols[c].terms {
			if !one[t.Row] || t.Coef <= 0 {
				continue
			}
			for _, h := range in.cols[c].needs {
				visit(c, t.Row, h)
			}
		}
	}
}

// oneAtMost says of every small row whether its limit has room for no two columns with a
// coefficient above 0, whatever else is picked. Limits of other rows may be changed under
// the same layout.
func (in *instance) oneAtMost() []bool {
	room, least := make([]int64, len(in.rows)), make([]int64, len(in.rows))
	for r := range in.rows {
		room[r], least[r] = in.rows[r].limit, Limit
	}
	for h := range in.switches {
		for _, t := range in.switches[h].terms {
			room[t.Row] -= min(0, t.Coef)
		}
	}
	lowest := map[int]int64{} // of one group
	for _, span := range in.groups {
		clear(lowest)
		for c := span[0]; c < span[1]; c++ {
			for _, t := range in.cols[c].terms {
				if t.Coef > 0 {
					least[t.Row] = min(least[t.Row], t.Coef)
				} else {
					lowest[t.Row] = min(lowest[t.Row], t.Coef)
				}
			}
		}
		for r, v := range lowest {
			room[r] -= v
		}
	}
	one := make([]bool, len(in.rows))
	for r := range one {
		k := &in.rows[r]
		one[r] = k.orig >= 0 && !k.dense && !k.charges && least[r] < Limit && 2*least[r] > room[r]
	}
	return one
}
