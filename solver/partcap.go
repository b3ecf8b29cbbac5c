package solver

// setCaps finds out how high a price in a common row can be, so that what a part comes
// to at any prices, and the bound of all parts together, stay within what can be added
// up exactly. A lower price gives a bound, too. False: there is no room for prices.
func (t *decomposition) setCaps() bool {
	all := int64(0)
	use := make([]int64, len(t.rows))
	shared := int64(0)
	for _, h := range t.shared {
		shared += t.p.Switches[h].Fixed + t.p.Switches[h].Minimum // together within Limit
	}
	for _, q := range t.parts {
		a := &adder{}
		sum := q.sums.total
		a.addTimes(&sum, shared, shares)
		t.addUse(q, &sum, use, a)
		if all += sum; a.beyond || sum > Limit/2 || all > Limit<<8 {
			return false
		}
	}
	t.caps = make([]int64, len(t.rows))
	for k, r := range t.rows {
		t.caps[k] = Limit / 2 / int64(len(t.rows)) / max(1, use[k], t.p.Rows[r].Limit)
	}
	return true
}

// addUse adds the loads of a part that have a price to what it comes to at most, and
// what it uses of common rows to what all parts use.
func (t *decomposition) addUse(q *part, sum *int64, use []int64, a *adder) {
	rows, loads := newMost(len(t.rows)), newMost(1)
	for i, u := range q.users {
		for _, m := range u.terms {
			rows.see(m.Row, m.Coef)
		}
		load := int64(0)
		for _, l := range u.loads {
			a.add(&load, l.Amount)
		}
		loads.see(0, load)
		if i+1 == len(q.users) || q.users[i+1].at.Group != u.at.Group {
			of := []int64{0}
			loads.spill(of, a)
			a.addTimes(sum, of[0], shares)
			rows.spill(use, a)
		}
	}
	for _, s := range q.priced {
		for _, m := range s.terms {
			a.add(&use[m.Row], m.Coef)
		}
	}
}
