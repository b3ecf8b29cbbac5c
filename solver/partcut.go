package solver

import "slices"

// cutter copies one part out of a problem.
type cutter struct {
	t     *decomposition
	sub   *Problem
	rowAt []int // of the whole's rows, here; -1 none
	swAt  []int
}

// cut makes part n a problem of its own, in which money is counted in shares of a unit.
func (t *decomposition) cut(n int, of, owner []int) *part {
	p := t.p
	c := &cutter{
		t:     t,
		sub:   &Problem{},
		rowAt: slices.Repeat([]int{-1}, len(p.Rows)),
		swAt:  slices.Repeat([]int{-1}, len(p.Switches)),
	}
	out := &part{prob: c.sub, first: p.Parts[n], needs: make([][]Pick, len(t.shared))}
	needed := c.needed(n, of)
	for h := range p.Switches {
		if needed[h] || owner[h] == n {
			c.swAt[h] = len(out.allSw)
			out.allSw = append(out.allSw, h)
		}
	}
	c.rows(n, of, out.allSw)
	for _, h := range out.allSw {
		s := p.Switches[h]
		if slices.Contains(t.shared, h) {
			s.Fixed, s.Minimum = 0, 0
		}
		s.Terms, s.Needs = c.terms(s.Terms), c.switches(s.Needs)
		if s.Account == 0 {
			s.Fixed, s.Minimum = s.Fixed*shares, s.Minimum*shares
		}
		c.sub.Switches = append(c.sub.Switches, s)
	}
	for g := range p.Groups {
		if of[g] == n {
			c.group(out, g)
		}
	}
	c.rules(n, of, out.first)
	out.refer(t, c)
	return out
}

// needed are the switches that columns of a part turn on.
func (c *cutter) needed(n int, of []int) []bool {
	on := make([]bool, len(c.t.p.Switches))
	for g := range c.t.p.Groups {
		if of[g] != n {
			continue
		}
		for i := range c.t.p.Groups[g].Columns {
			for _, h := range c.t.p.Groups[g].Columns[i].Needs {
				c.t.p.turnOn(h, on)
			}
		}
	}
	return on
}

// rows copies the rows that columns or switches of the part have a term in, or pay into.
func (c *cutter) rows(n int, of []int, switches []int) {
	p := c.t.p
	in := make([]bool, len(p.Rows))
	for g := range p.Groups {
		if of[g] != n {
			continue
		}
		for i := range p.Groups[g].Columns {
			for _, m := range p.Groups[g].Columns[i].Terms {
				in[m.Row] = true
			}
		}
	}
	for _, h := range switches {
		for _, m := range p.Switches[h].Terms {
			in[m.Row] = true
		}
		for r := range p.Rows {
			in[r] = in[r] || p.Rows[r].Charges && p.Rows[r].binds() && p.Rows[r].Account == p.Switches[h].Account
		}
	}
	for r := range p.Rows {
		if in[r] {
			c.rowAt[r] = len(c.sub.Rows)
			row := p.Rows[r]
			if row.binds() {
				row.Limit *= c.worthIn(r) // below 2^63
				row.Limit = min(row.Limit, Limit)
			}
			c.sub.Rows = append(c.sub.Rows, row)
		}
	}
}

// worth is what the money a switch charges is counted in.
func (c *cutter) worth(sw int) int64 {
	if c.t.p.Switches[sw].Account == 0 {
		return shares
	}
	return 1
}

// worthIn is what a row is counted in.
func (c *cutter) worthIn(row int) int64 {
	if r := &c.t.p.Rows[row]; r.Charges && r.Account == 0 {
		return shares
	}
	return 1
}

func (c *cutter) terms(list []Term) []Term {
	out := make([]Term, 0, len(list))
	for _, m := range list {
		out = append(out, Term{c.rowAt[m.Row], m.Coef * c.worthIn(m.Row)})
	}
	return out
}

func (c *cutter) switches(list []int) []int {
	var out []int
	for _, h := range list {
		out = append(out, c.swAt[h])
	}
	slices.Sort(out)
	return out
}

// group copies a group, and notes what in it has a price. Loads on shared switches are
// left to the prices.
func (c *cutter) group(out *part, g int) {
	t := c.t
	here := Group{Name: t.p.Groups[g].Name, Columns: make([]Column, len(t.p.Groups[g].Columns))}
	for i, k := range t.p.Groups[g].Columns {
		at := Pick{len(c.sub.Groups), i}
		v := priced{at: at, cost: k.Cost * shares}
		for _, m := range k.Terms {
			if r, is := slices.BinarySearch(t.rows, m.Row); is {
				v.terms = append(v.terms, Term{r, m.Coef})
			}
		}
		var loads []Load
		for _, l := range k.Loads {
			if s, is := slices.BinarySearch(t.shared, l.Switch); is {
				v.loads = append(v.loads, Load{s, l.Amount})
			} else {
				loads = append(loads, Load{c.swAt[l.Switch], l.Amount * c.worth(l.Switch)})
			}
		}
		slices.SortFunc(loads, func(a, b Load) int { return a.Switch - b.Switch })
		for _, h := range t.p.closure(k.Needs) {
			if s, is := slices.BinarySearch(t.shared, h); is {
				out.needs[s] = append(out.needs[s], at)
			}
		}
		if len(v.terms)+len(v.loads) > 0 {
			out.users = append(out.users, v)
		}
		here.Columns[i] = Column{
			Name:  k.Name,
			Cost:  k.Cost * shares,
			Tie:   k.Tie,
			Terms: c.terms(k.Terms),
			Needs: c.switches(k.Needs),
			Loads: loads,
		}
	}
	c.sub.Groups = append(c.sub.Groups, here)
}

// rules copies the near and same rules of the part.
func (c *cutter) rules(n int, of []int, first int) {
	shift := func(groups []int) []int {
		out := slices.Clone(groups)
		for i := range out {
			out[i] -= first
		}
		return out
	}
	for _, r := range c.t.p.WithinTolerance {
		if len(r.Groups) > 0 && of[r.Groups[0]] == n {
			r.Groups = shift(r.Groups)
			c.sub.WithinTolerance = append(c.sub.WithinTolerance, r)
		}
	}
	for _, r := range c.t.p.AllEqual {
		if len(r.Groups) > 0 && of[r.Groups[0]] == n {
			r.Groups = shift(r.Groups)
			c.sub.AllEqual = append(c.sub.AllEqual, r)
		}
	}
}

// refer notes where the common rows and shared switches are in the part.
func (out *part) refer(t *decomposition, c *cutter) {
	for _, r := range t.rows {
		out.rowAt = append(out.rowAt, c.rowAt[r])
	}
	for _, h := range t.shared {
		out.swAt = append(out.swAt, c.swAt[h])
	}
	for at, h := range out.allSw {
		s := pricedSw{sw: at, fixed: t.p.Switches[h].Fixed * shares}
		for _, m := range t.p.Switches[h].Terms {
			if r, is := slices.BinarySearch(t.rows, m.Row); is {
				s.terms = append(s.terms, Term{r, m.Coef})
			}
		}
		if len(s.terms) > 0 {
			out.priced = append(out.priced, s)
		}
	}
}
