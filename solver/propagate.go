package solver

// propagate removes columns and settles switches that no solution within the
// domain can use, in integers, until nothing more follows or time is up. False: none
// exists.
func (in *instance) propagate(d *domain) bool {
	for {
		before := d.alive.count()
		settled, ok := in.propagateSwitches(d)
		if !ok || !in.propagateRows(d, &settled) || !in.propagateNear(d) || !in.propagateSame(d) {
			return false
		}
		if in.propagateOrder(d); in.someEmpty(d) {
			return false
		}
		if d.alive.count() == before && !settled || in.halt() {
			return true
		}
	}
}

func (in *instance) propagateSwitches(d *domain) (settled, ok bool) {
	needed := make([]bool, len(d.y))
	count := make([]int, len(d.y))
	for g, span := range in.groups {
		n := 0
		clear(count)
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			dead := false
			for _, h := range in.cols[c].needs {
				dead = dead || d.y[h] == off
			}
			if dead {
				d.alive.drop(c)
				continue
			}
			n++
			for _, h := range in.cols[c].needs {
				needed[h] = true
				count[h]++
			}
		}
		if n == 0 {
			return false, false
		}
		for h := range count {
			if count[h] == n && d.y[h] == open {
				d.y[h], settled = on, true
			}
		}
	}
	for h := range in.switches {
		if in.switches[h].voluntary && d.y[h] != off {
			for _, n := range in.switches[h].needs {
				needed[n] = true
				switch {
				case d.y[h] == on && d.y[n] == off:
					return false, false
				case d.y[h] == on && d.y[n] == open:
					d.y[n], settled = on, true
				case d.y[h] == open && d.y[n] == off:
					d.y[h], settled = off, true
				}
			}
		}
	}
	for h := range in.switches {
		if !needed[h] && !in.switches[h].voluntary {
			if d.y[h] == on {
				return false, false
			}
			if d.y[h] == open {
				d.y[h], settled = off, true
			}
		}
	}
	return settled, true
}

// propagateRows compares each row's limit with the least its sum can come to. It says in
// settled that a switch went off: columns that need it go with it.
func (in *instance) propagateRows(d *domain, settled *bool) bool {
	a := in.activity(d)
	for r := range in.rows {
		if a.least[r] > in.rows[r].limit {
			return false
		}
	}
	for h := range in.switches {
		if d.y[h] == open && !in.canBeOn(h, a.least) {
			d.y[h], *settled = off, true
		}
	}
	coef := make([]int64, len(in.rows))
	var risky []reach
	for g, span := range in.groups {
		risky = risky[:0]
		for _, k := range a.group[g] {
			if a.least[k.row]-k.lo+k.hi > in.rows[k.row].limit {
				risky = append(risky, k)
			}
		}
		if len(risky) == 0 {
			continue
		}
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			for _, t := range in.cols[c].terms {
				coef[t.Row] = t.Coef
			}
			for _, k := range risky {
				if a.least[k.row]-k.lo+coef[k.row] > in.rows[k.row].limit {
					d.alive.drop(c)
					break
				}
			}
			for _, t := range in.cols[c].terms {
				coef[t.Row] = 0
			}
		}
	}
	return true
}

// leastSwitches is the least that switches and charges add to each row.
func (in *instance) leastSwitches(d *domain) []int64 {
	least := make([]int64, len(in.rows))
	charges := in.byAccount()
	for h := range in.switches {
		s := &in.switches[h]
		if d.y[h] == off {
			continue
		}
		for _, t := range s.terms {
			if d.y[h] == on {
				least[t.Row] += t.Coef
			} else {
				least[t.Row] += min(0, t.Coef)
			}
		}
		if d.y[h] == on {
			charges[s.account] += s.fixed
		} else {
			charges[s.account] += min(0, s.fixed)
		}
	}
	for r := range in.rows {
		if in.rows[r].charges {
			least[r] += charges[in.rows[r].account]
		}
	}
	return least
}

func (in *instance) canBeOn(h int, least []int64) bool {
	s := &in.switches[h]
	for _, t := range s.terms {
		if least[t.Row]-min(0, t.Coef)+t.Coef > in.rows[t.Row].limit {
			return false
		}
	}
	for r := range in.rows {
		if in.pays(r, h) && least[r]-min(0, s.fixed)+s.fixed > in.rows[r].limit {
			return false
		}
	}
	return true
}

// propagateNear keeps the values of a near rule inside the window that every
// group can still reach: not below the highest of the groups' lowest values
// less the tolerance, and the mirror image.
func (in *instance) propagateNear(d *domain) bool {
	for i := range in.near {
		n := &in.near[i]
		lo, hi := -Limit, Limit
		for a, g := range n.groups {
			gl, gh := Limit, -Limit
			for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
				v := in.cols[c].near[n.at[a]]
				gl, gh = min(gl, v), max(gh, v)
			}
			lo, hi = max(lo, gl-n.tol), min(hi, gh+n.tol)
		}
		for a, g := range n.groups {
			for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
				if v := in.cols[c].near[n.at[a]]; v < lo || v > hi {
					d.alive.drop(c)
				}
			}
			if in.first(d, g) == in.groups[g][1] {
				return false
			}
		}
	}
	return true
}

// propagateSame drops labels that some group, all of whose columns carry a
// label, does not have.
func (in *instance) propagateSame(d *domain) bool {
	for i := range in.same {
		s := &in.same[i]
		allowed := map[int]bool(nil)
		for a, g := range s.groups {
			labels, free := in.labels(d, g, s.at[a])
			if free {
				continue
			}
			if allowed == nil {
				allowed = labels
				continue
			}
			for l := range allowed {
				if !labels[l] {
					delete(allowed, l)
				}
			}
		}
		if allowed == nil {
			continue
		}
		for a, g := range s.groups {
			for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
				if l := in.cols[c].same[s.at[a]]; l >= 0 && !allowed[l] {
					d.alive.drop(c)
				}
			}
			if in.first(d, g) == in.groups[g][1] {
				return false
			}
		}
	}
	return true
}

// labels are those of a group's columns in one of its same rules; free if one of
// them goes with any.
func (in *instance) labels(d *domain, g, at int) (labels map[int]bool, free bool) {
	labels = map[int]bool{}
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		l := in.cols[c].same[at]
		if l < 0 {
			return nil, true
		}
		labels[l] = true
	}
	return labels, false
}
