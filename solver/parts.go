package solver

import (
	"context"
	"slices"
	"time"
)

// decomposition is a problem that falls into parts which have little in common: some rows and
// some switches. Each part by itself is solved exactly and fast; a tree over all of them
// at once would have to be as large as the product of the parts' trees, where it need
// only be as large as their sum.
type decomposition struct {
	p       *Problem
	parts   []*part
	rows    []int // of the problem: those that several parts take part in
	shared  []int // switches that columns of several parts need
	needsOf [][]int
	leave   without
	caps    []int64 // per common row, the highest price per unit

	ctx    context.Context
	set    Settings
	began  time.Time
	pool   [][]*partPlan // per part, the plans found so far
	best   incumbent
	dear   float64 // more than any saving
	beyond int64   // more than any total
	nodes  int
	lps    int
	stop   Stop
}

// part is one of them as a problem of its own: its groups, the rows and switches that
// concern it. A shared switch charges nothing there; a Change puts its price on.
type part struct {
	*Solver
	first  int        // its first group in the whole
	rowAt  []int      // per common row, its row here, -1 where it takes no part
	swAt   []int      // per shared switch, its switch here, -1 where nothing needs it
	allSw  []int      // per switch here, that of the whole
	users  []priced   // columns with terms in common rows or loads on shared switches
	needs  [][]Pick   // per shared switch, the columns that need it
	priced []pricedSw // its own switches with terms in common rows
	prob   *Problem   //
}

// priced is a column and what of it has a price: per common row and shared switch.
type priced struct {
	at    Pick
	cost  int64
	terms []Term // of common rows, by their place among them
	loads []Load // on shared switches, likewise
}

// pricedSw is a switch of a part's own with terms in common rows.
type pricedSw struct {
	sw    int
	fixed int64
	terms []Term
}

// apart takes a problem apart along Parts; nil if it doesn't fall apart that way: the
// parts must have nothing in common but rows that limit sums of coefficients not below
// nothing from above, and switches that charge the objective alone.
func (p *Problem) apart() *decomposition {
	if len(p.Parts) < 2 || p.Uncharged {
		return nil
	}
	t := &decomposition{p: p}
	of := p.partOf()
	sw, ok := t.findShared(of)
	if !ok || !t.findRows(of, sw) || !t.rulesWithin(of) {
		return nil
	}
	for n := range p.Parts {
		q := t.cut(n, of, sw)
		s, err := New(q.prob)
		if err != nil {
			return nil // sums in shares would be too large
		}
		q.Solver = s
		t.parts = append(t.parts, q)
	}
	if !t.setCaps() {
		return nil
	}
	return t
}

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

// Whose a switch is: a part's, everybody's, or nobody's.
const (
	everybody = -1
	nobody    = -2
)

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
