package solver

// activity is the least and the most that every row's sum can come to in a
// domain, and what each group has to do with it.
type activity struct {
	least, most []int64
	group       [][]reach
}

// reach is the least and the most a group can add to a row.
type reach struct {
	row    int
	lo, hi int64
}

func (in *instance) activity(d *domain) *activity {
	a := &activity{least: in.leastSwitches(d), most: in.mostSwitches(d), group: make([][]reach, len(in.groups))}
	lo, hi, count := make([]int64, len(in.rows)), make([]int64, len(in.rows)), make([]int, len(in.rows))
	var touched []int
	for g, span := range in.groups {
		touched = touched[:0]
		n := 0
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			n++
			for _, t := range in.cols[c].terms {
				if count[t.Row] == 0 {
					touched = append(touched, t.Row)
					lo[t.Row], hi[t.Row] = t.Coef, t.Coef
				}
				lo[t.Row], hi[t.Row] = min(lo[t.Row], t.Coef), max(hi[t.Row], t.Coef)
				count[t.Row]++
			}
		}
		a.group[g] = make([]reach, 0, len(touched))
		for _, r := range touched {
			if count[r] < n { // some column has no term here
				lo[r], hi[r] = min(lo[r], 0), max(hi[r], 0)
			}
			a.group[g] = append(a.group[g], reach{r, lo[r], hi[r]})
			a.least[r] += lo[r]
			a.most[r] += hi[r]
			count[r] = 0
		}
	}
	return a
}

// mostSwitches is the most that switches and charges add to each row.
func (in *instance) mostSwitches(d *domain) []int64 {
	most := make([]int64, len(in.rows))
	charges := in.byAccount()
	for h := range in.switches {
		s := &in.switches[h]
		if d.y[h] == off {
			continue
		}
		for _, t := range s.terms {
			if d.y[h] == on {
				most[t.Row] += t.Coef
			} else {
				most[t.Row] += max(0, t.Coef)
			}
		}
		charges[s.account] += s.minimum
		if d.y[h] == on {
			charges[s.account] += s.fixed
		} else {
			charges[s.account] += max(0, s.fixed)
		}
	}
	for r := range in.rows {
		if in.rows[r].charges {
			most[r] += charges[in.rows[r].account]
		}
	}
	return most
}
