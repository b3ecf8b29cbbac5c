package solver

// newInstance applies a change. Columns that are banned, or shut out by a fix,
// are left out.
func newInstance(p *Problem, ch *Change, leave without) *instance {
	in := &instance{charged: !p.Uncharged, accounts: p.accounts(), without: leave, halt: func() bool { return false }}
	off := map[Tag]bool{}
	for _, t := range ch.Off {
		off[t] = true
	}
	off[""] = false
	flip := in.addRows(p, ch, off)
	in.addSwitches(p, ch, off, flip)
	in.addColumns(p, ch, flip)
	in.addRules(p, off)
	in.index()
	return in
}

// mapping of a problem's row to the instance's, and its sign; row -1: left out.
type rowMap struct {
	row  []int
	sign []int64
}

func (m rowMap) terms(ts []Term) []Term {
	out := make([]Term, 0, len(ts))
	for _, t := range ts {
		if r := m.row[t.Row]; r >= 0 && t.Coef != 0 {
			out = append(out, Term{r, m.sign[t.Row] * t.Coef})
		}
	}
	return out
}

func (in *instance) addRows(p *Problem, ch *Change, off map[Tag]bool) rowMap {
	m := rowMap{make([]int, len(p.Rows)), make([]int64, len(p.Rows))}
	for r := range p.Rows {
		limit := p.Rows[r].Limit
		for _, l := range ch.Limits {
			if l.Row == r {
				limit = l.Limit
			}
		}
		m.sign[r], m.row[r] = 1, -1
		if p.Rows[r].Sense == AtLeast {
			m.sign[r], limit = -1, -limit
		}
		if off[p.Rows[r].Tag] || limit >= Limit {
			continue
		}
		m.row[r] = len(in.rows)
		in.rows = append(in.rows, row{limit: limit, charges: p.Rows[r].Charges, account: p.Rows[r].Account, orig: r})
	}
	return m
}

func (in *instance) addSwitches(p *Problem, ch *Change, off map[Tag]bool, m rowMap) {
	for h := range p.Switches {
		s := &p.Switches[h]
		t := sw{fixed: s.Fixed, minimum: s.Minimum, account: s.Account, voluntary: s.Voluntary, terms: m.terms(s.Terms)}
		for _, f := range ch.Fixed {
			if f.Switch == h {
				t.fixed = f.Fixed
			}
		}
		if off[s.Tag] {
			t.fixed, t.minimum = 0, 0
		}
		t.needs = p.closure(s.Needs)
		in.switches = append(in.switches, t)
	}
}

// closure is a list of switches with all that they need, ascending.
func (p *Problem) closure(needs []int) []int {
	on := make([]bool, len(p.Switches))
	for _, h := range needs {
		p.turnOn(h, on)
	}
	var out []int
	for h, o := range on {
		if o {
			out = append(out, h)
		}
	}
	return out
}

func (in *instance) addColumns(p *Problem, ch *Change, m rowMap) {
	fixed := map[int]int{}
	for _, f := range ch.Fix {
		if was, ok := fixed[f.Group]; ok && was != f.Column {
			fixed[f.Group] = -1 // two different fixes: nothing is left
			continue
		}
		fixed[f.Group] = f.Column
	}
	banned := map[Pick]bool{}
	for _, b := range ch.Ban {
		banned[b] = true
	}
	cost := map[Pick]int64{}
	for _, c := range ch.Costs {
		cost[c.Pick] = c.Cost
	}
	order := p.numbering()
	rank := p.ranks(order.number)
	all := 0
	for g := range p.Groups {
		all += len(p.Groups[g].Columns)
	}
	in.cols = make([]col, 0, all)
	for g := range p.Groups {
		first := len(in.cols)
		only, isFixed := fixed[g]
		for i := range p.Groups[g].Columns {
			if banned[Pick{g, i}] || (isFixed && only != i) {
				continue
			}
			c := &p.Groups[g].Columns[i]
			n := col{
				group: g, orig: i, number: order.number[g][i], common: order.common[g][i],
				cost: c.Cost, tie: ties{c.Tie[0], c.Tie[1], rank[g] * order.number[g][i]},
				terms: m.terms(c.Terms), needs: c.Needs, loads: c.Loads,
			}
			if v, ok := cost[Pick{g, i}]; ok {
				n.cost = v
			}
			for _, h := range c.Needs {
				if len(p.Switches[h].Needs) > 0 {
					n.needs = p.closure(c.Needs)
					break
				}
			}
			in.cols = append(in.cols, n)
		}
		in.groups = append(in.groups, [2]int{first, len(in.cols)})
	}
}

func (in *instance) addRules(p *Problem, off map[Tag]bool) {
	nears, sames := make([]int, len(in.groups)), make([]int, len(in.groups)) // rules so far
	for i := range p.WithinTolerance {
		n := &p.WithinTolerance[i]
		if off[n.Tag] || len(n.Groups) < 2 {
			continue
		}
		rule := nearRule{groups: n.Groups, tol: n.Tolerance}
		for a, g := range n.Groups {
			rule.at = append(rule.at, nears[g])
			nears[g]++
			for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
				k := &in.cols[c]
				k.near = append(k.near, n.Values[a][k.orig])
			}
		}
		in.near = append(in.near, rule)
	}
	for i := range p.AllEqual {
		s := &p.AllEqual[i]
		if off[s.Tag] || len(s.Groups) < 2 {
			continue
		}
		rule := sameRule{groups: s.Groups}
		for a, g := range s.Groups {
			rule.at = append(rule.at, sames[g])
			sames[g]++
			for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
				k := &in.cols[c]
				k.same = append(k.same, s.Labels[a][k.orig])
			}
		}
		in.same = append(in.same, rule)
	}
}

// index numbers the links; done anew whenever columns have been left out.
func (in *instance) index() {
	in.links = in.links[:0]
	in.compact()
	in.list()
	at := make([]int, len(in.switches))
	dense := make([]int, len(in.rows))
	for g, span := range in.groups {
		for h := range at {
			at[h] = -1
		}
		seen := map[int]bool{}
		for c := span[0]; c < span[1]; c++ {
			k := &in.cols[c]
			for i, h := range k.needs {
				if at[h] < 0 {
					at[h] = len(in.links)
					in.links = append(in.links, link{g, h})
				}
				k.links[i] = at[h]
			}
			for _, t := range k.terms {
				if !seen[t.Row] {
					seen[t.Row] = true
					dense[t.Row]++
				}
				in.rows[t.Row].lowered = in.rows[t.Row].lowered || t.Coef < 0
			}
		}
	}
	for h := range in.switches {
		for _, t := range in.switches[h].terms {
			in.rows[t.Row].lowered = in.rows[t.Row].lowered || t.Coef < 0
		}
	}
	for r := range in.rows {
		in.rows[r].dense = 2*dense[r] > len(in.groups)
	}
	if !in.without.rowLinks {
		in.rowLinks()
	}
}

// list gathers the switches and rows that are looked at again and again.
func (in *instance) list() {
	in.voluntary, in.paid, in.every = nil, nil, nil
	for h := range in.switches {
		if in.switches[h].voluntary {
			in.voluntary = append(in.voluntary, h)
		}
	}
	for r := range in.rows {
		in.every = append(in.every, r)
		if in.rows[r].charges {
			in.paid = append(in.paid, r)
		}
	}
}
