package solver

import "slices"

// flat is an instance with its near and same rules as rows, every group by itself, and implied
// rows: what it has in its linear program is columns, not picks of blocks, so that what is
// added up there can be rounded. Its columns are the instance's, and so are its bounds.
type flat struct {
	in      *instance // with the implied rows last
	plain   *instance // without
	implied []*implied
}

func (in *instance) flat(d *domain) *flat {
	out := *in
	out.near, out.same = nil, nil
	out.entire = true
	out.blocks, out.blockOf = make([]block, len(in.groups)), make([]int, len(in.groups))
	for g := range in.groups {
		out.blocks[g], out.blockOf[g] = block{groups: []int{g}, halt: in.halt}, g
	}
	out.cols, out.rows, out.scale = slices.Clone(in.cols), slices.Clone(in.rows), slices.Clone(in.scale)
	out.pare(d)
	for i := range in.near {
		n := &in.near[i]
		pairs(len(n.groups), func(a, b int) { out.nearRows(in, d, n, a, b) })
	}
	for i := range in.same {
		s := &in.same[i]
		pairs(len(s.groups), func(a, b int) { out.sameRows(in, d, s, a, b) })
	}
	out.list()
	return &flat{in: &out, plain: &out}
}

// pairs visits every two of n, in both orders.
func pairs(n int, visit func(a, b int)) {
	for a := range n {
		for b := range n {
			if a != b {
				visit(a, b)
			}
		}
	}
}

// with is the same with other implied rows.
func (f *flat) with(rows ...[]*implied) *flat {
	in := *f.plain
	out := &flat{in: &in, plain: f.plain, implied: slices.Concat(rows...)}
	first := len(in.rows)
	in.rows, in.scale, in.cols = slices.Clip(in.rows), slices.Clip(in.scale), slices.Clone(in.cols)
	in.switches = slices.Clone(in.switches)
	for _, w := range out.implied {
		in.rows = append(in.rows, row{limit: w.limit, orig: -1, lowered: true})
		in.scale = append(in.scale, w.scale)
	}
	var terms []Term
	for c := range in.cols {
		k, from := &in.cols[c], len(terms)
		terms = append(terms, k.terms...)
		for i, w := range out.implied {
			if v := w.cols[c]; v != 0 {
				terms = append(terms, Term{first + i, v})
			}
		}
		k.terms = terms[from:len(terms):len(terms)]
	}
	for i, w := range out.implied {
		for _, t := range w.switches {
			k := &in.switches[t.Row]
			k.terms = append(slices.Clip(k.terms), Term{first + i, t.Coef})
		}
	}
	in.list()
	return out
}

// nearRows says, of two groups of a near rule, that where the first picks no more than a value
// the second picks no more than that and the tolerance.
func (out *instance) nearRows(in *instance, d *domain, n *nearRule, a, b int) {
	g, k := n.groups[a], n.groups[b]
	value := func(c int) int64 { return in.cols[c].near[n.at[a]] }
	other := func(c int) int64 { return in.cols[c].near[n.at[b]] }
	var values []int64
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		values = append(values, value(c))
	}
	slices.Sort(values)
	reach := func(v int64) (count int) {
		for c := in.first(d, k); c < in.groups[k][1]; c = d.alive.next(c+1, in.groups[k][1]) {
			if other(c) <= v+n.tol {
				count++
			}
		}
		return count
	}
	values = slices.Compact(values)
	for i, v := range values {
		if i+1 < len(values) && reach(values[i+1]) == reach(v) {
			continue // the next says more
		}
		out.follows(d, g, k, func(c int) bool { return value(c) <= v }, func(c int) bool { return other(c) <= v+n.tol })
	}
}

// sameRows says, of two groups of a same rule, that where the first picks a label the second
// picks it too, or none.
func (out *instance) sameRows(in *instance, d *domain, s *sameRule, a, b int) {
	g, k := s.groups[a], s.groups[b]
	var labels []int
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		if l := in.cols[c].same[s.at[a]]; l >= 0 {
			labels = append(labels, l)
		}
	}
	slices.Sort(labels)
	for _, l := range slices.Compact(labels) {
		out.follows(d, g, k, func(c int) bool { return in.cols[c].same[s.at[a]] == l },
			func(c int) bool { return in.cols[c].same[s.at[b]] == l || in.cols[c].same[s.at[b]] < 0 })
	}
}

// follows adds the row that says: where a group picks one of these columns, another picks one
// of those.
func (out *instance) follows(d *domain, g, k int, these, those func(c int) bool) {
	r, all := len(out.rows), true
	for c := out.first(d, k); c < out.groups[k][1]; c = d.alive.next(c+1, out.groups[k][1]) {
		all = all && those(c)
	}
	if all {
		return
	}
	out.rows = append(out.rows, row{orig: -1, lowered: true})
	out.scale = append(out.scale, 1)
	put := func(c int, v int64) {
		k := &out.cols[c]
		k.terms = append(slices.Clip(k.terms), Term{r, v})
	}
	for c := out.first(d, g); c < out.groups[g][1]; c = d.alive.next(c+1, out.groups[g][1]) {
		if these(c) {
			put(c, 1)
		}
	}
	for c := out.first(d, k); c < out.groups[k][1]; c = d.alive.next(c+1, out.groups[k][1]) {
		if those(c) {
			put(c, -1)
		}
	}
}
