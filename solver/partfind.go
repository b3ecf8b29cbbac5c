package solver

import (
	"slices"
)

// partOf is, per group, the part it belongs to.
func (p *Problem) partOf() []int {
	of := make([]int, len(p.Groups))
	n := 0
	for g := range of {
		for n+1 < len(p.Parts) && g >= p.Parts[n+1] {
			n++
		}
		of[g] = n
	}
	return of
}

// findShared gives, per switch, the part it belongs to.
func (t *decomposition) findShared(of []int) (owner []int, ok bool) {
	p := t.p
	owner = make([]int, len(p.Switches))
	for h := range owner {
		owner[h] = nobody
	}
	take := func(h, n int) {
		switch owner[h] {
		case nobody:
			owner[h] = n
		case n, everybody:
		default:
			owner[h] = everybody
		}
	}
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			for _, h := range p.closure(p.Groups[g].Columns[c].Needs) {
				take(h, of[g])
			}
		}
	}
	inRow := make([]int, len(p.Rows)) // a part with columns in the row
	for r := range inRow {
		inRow[r] = nobody
	}
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			for _, m := range p.Groups[g].Columns[c].Terms {
				inRow[m.Row] = of[g]
			}
		}
	}
	for h := range p.Switches {
		s := &p.Switches[h]
		if s.Voluntary {
			if owner[h] != nobody {
				return nil, false
			}
			owner[h] = 0
			for _, m := range s.Terms { // it goes with whoever its first row is about
				if inRow[m.Row] >= 0 {
					owner[h] = inRow[m.Row]
					break
				}
			}
			for _, n := range p.closure(s.Needs) {
				if n != h {
					take(n, owner[h])
				}
			}
		}
	}
	for h, n := range owner {
		if s := &p.Switches[h]; n == everybody {
			if s.Voluntary || s.Account != 0 || len(s.Terms) > 0 || s.Fixed < 0 {
				return nil, false
			}
			t.shared = append(t.shared, h)
		}
	}
	t.needsOf = make([][]int, len(t.shared))
	for k, h := range t.shared {
		for _, n := range p.Switches[h].Needs {
			at := slices.Index(t.shared, n)
			if at < 0 {
				return nil, false
			}
			t.needsOf[k] = append(t.needsOf[k], at)
		}
	}
	return owner, true
}

// findRows lists the common rows. A row of charges that several parts pay into, one with
// negative coefficients, or one with a switch that doesn't charge the objective, can't be
// taken apart.
func (t *decomposition) findRows(of, owner []int) bool {
	p := t.p
	in := make([]int, len(p.Rows))
	negative := make([]bool, len(p.Rows))
	elsewhere := make([]bool, len(p.Rows)) // a switch in it pays to another account: no price can be put on it
	for r := range in {
		in[r] = nobody
	}
	take := func(r, n int) {
		if in[r] == nobody {
			in[r] = n
		} else if in[r] != n {
			in[r] = everybody
		}
	}
	for g := range p.Groups {
		for c := range p.Groups[g].Columns {
			for _, m := range p.Groups[g].Columns[c].Terms {
				take(m.Row, of[g])
				negative[m.Row] = negative[m.Row] || m.Coef < 0
			}
		}
	}
	for h := range p.Switches {
		if owner[h] < 0 {
			continue // it is never on, or has no terms
		}
		for _, m := range p.Switches[h].Terms {
			take(m.Row, owner[h])
			negative[m.Row] = negative[m.Row] || m.Coef < 0
			elsewhere[m.Row] = elsewhere[m.Row] || p.Switches[h].Account != 0
		}
	}
	for r := range p.Rows {
		row := &p.Rows[r]
		if !row.binds() {
			continue
		}
		if row.Charges {
			for h := range p.Switches {
				if p.Switches[h].Account == row.Account && owner[h] != nobody {
					take(r, owner[h])
				}
			}
		}
		if in[r] != everybody {
			continue
		}
		if row.Charges || row.Sense != AtMost || negative[r] || row.Limit < 0 || elsewhere[r] {
			return false
		}
		t.rows = append(t.rows, r)
	}
	return true
}

// rulesWithin says whether every near and same rule is one part's.
func (t *decomposition) rulesWithin(of []int) bool {
	within := func(groups []int) bool {
		for _, g := range groups {
			if of[g] != of[groups[0]] {
				return false
			}
		}
		return true
	}
	for i := range t.p.WithinTolerance {
		if !within(t.p.WithinTolerance[i].Groups) {
			return false
		}
	}
	for i := range t.p.AllEqual {
		if !within(t.p.AllEqual[i].Groups) {
			return false
		}
	}
	return true
}
