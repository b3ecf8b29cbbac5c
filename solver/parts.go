package solver

import (
	"context"
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

// Whose a switch is: a part's, everybody's, or nobody's.
const (
	everybody = -1
	nobody    = -2
)
