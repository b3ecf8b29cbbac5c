package solver

import "slices"

// mostRuleRows is how many rows are made of rules. What is left out weakens a relaxation, and
// no more.
const mostRuleRows = 400

// ruleRows makes rows of the rules of an instance, for the columns of d.
type ruleRows struct {
	in    *instance
	d     *domain
	out   *instance
	terms [][]Term // per column, those to be added
	left  int
}

// rulesAsRows adds the near and same rules of in to the rows of out, which has its columns.
func (out *instance) rulesAsRows(in *instance, d *domain) {
	w := &ruleRows{in: in, d: d, out: out, terms: make([][]Term, len(in.cols)), left: mostRuleRows}
	for i := range in.near {
		n := &in.near[i]
		w.pairs(len(n.groups), func(a, b int) { w.near(n, a, b) })
	}
	for i := range in.same {
		s := &in.same[i]
		w.pairs(len(s.groups), func(a, b int) { w.same(s, a, b) })
	}
	for c, more := range w.terms {
		if k := &out.cols[c]; len(more) > 0 {
			k.terms = slices.Concat(k.terms, more)
		}
	}
}

// pairs visits every two of n, in both orders, while rows are left.
func (w *ruleRows) pairs(n int, visit func(a, b int)) {
	for a := range n {
		for b := range n {
			if a != b && w.left > 0 {
				visit(a, b)
			}
		}
	}
}

// near says, of two groups of a near rule, that where the first picks no more than a value
// the second picks no more than that and the tolerance.
func (w *ruleRows) near(n *nearRule, a, b int) {
	g, k := n.groups[a], n.groups[b]
	value := func(c int) int64 { return w.in.cols[c].near[n.at[a]] }
	other := func(c int) int64 { return w.in.cols[c].near[n.at[b]] }
	values, others := w.sorted(g, value), w.sorted(k, other)
	reach := func(v int64) int {
		i, _ := slices.BinarySearch(others, v+n.tol+1)
		return i
	}
	for i, v := range values {
		if i+1 < len(values) && reach(values[i+1]) == reach(v) {
			continue // the next says more
		}
		w.follows(g, k, func(c int) bool { return value(c) <= v }, func(c int) bool { return other(c) <= v+n.tol })
	}
}

// same says, of two groups of a same rule, that where the first picks a label the second picks
// it too, or none.
func (w *ruleRows) same(s *sameRule, a, b int) {
	g, k := s.groups[a], s.groups[b]
	label := func(c int) int64 { return int64(w.in.cols[c].same[s.at[a]]) }
	other := func(c int) int64 { return int64(w.in.cols[c].same[s.at[b]]) }
	for _, l := range w.sorted(g, label) {
		if l >= 0 {
			w.follows(g, k, func(c int) bool { return label(c) == l },
				func(c int) bool { return other(c) == l || other(c) < 0 })
		}
	}
}

// sorted are the values that a group's columns have, each once.
func (w *ruleRows) sorted(g int, value func(c int) int64) (out []int64) {
	w.each(g, func(c int) { out = append(out, value(c)) })
	slices.Sort(out)
	return slices.Compact(out)
}

// each visits the columns of a group.
func (w *ruleRows) each(g int, visit func(c int)) {
	for c := w.in.first(w.d, g); c < w.in.groups[g][1]; c = w.d.alive.next(c+1, w.in.groups[g][1]) {
		visit(c)
	}
}

// follows adds the row that says: where a group picks one of these columns, another picks one
// of those.
func (w *ruleRows) follows(g, k int, these, those func(c int) bool) {
	all := true
	w.each(k, func(c int) { all = all && those(c) })
	if all || w.left == 0 {
		return
	}
	w.left--
	r := len(w.out.rows)
	w.out.rows, w.out.scale = append(w.out.rows, row{orig: -1}), append(w.out.scale, 1)
	w.each(g, func(c int) {
		if these(c) {
			w.terms[c] = append(w.terms[c], Term{r, 1})
		}
	})
	w.each(k, func(c int) {
		if those(c) {
			w.terms[c] = append(w.terms[c], Term{r, -1})
		}
	})
}
