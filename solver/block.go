package solver

import (
	"cmp"
	"slices"
)

// block is a set of groups tied together by near and same rules, or a single
// group. The columns of a larger block fall into classes that neither these
// rules nor the small rows they share can tell apart, and two classes of
// different groups either go together or exclude each other. Picking one class
// per group, all going together, for the least sum is what a block adds to a
// bound: it keeps the match, and never puts one piece into two places at once.
type block struct {
	groups  []int
	classes [][]int // columns of each class; nil for a single group
	groupOf []int   // per class, its place in groups
	goes    []bits  // per class, the classes of other groups it goes together with
	halt    func() bool
}

// single says whether the block is one group.
func (b *block) single() bool { return len(b.groups) == 1 }

// mostClasses bounds the classes of one block; beyond it, shared rows are left
// to the linear program.
const mostClasses = 1200

// findBlocks finds the blocks of an instance: groups with near and same rules in
// common and, if tied is set, those that share small rows. The latter pays once
// most columns have been ruled out.
func (in *instance) findBlocks(tied bool) {
	in.blocks = nil
	in.blockOf = make([]int, len(in.groups))
	root := in.tie(tied)
	for g := range in.groups {
		r := root(g)
		if r == g {
			in.blockOf[g] = len(in.blocks)
			in.blocks = append(in.blocks, block{halt: in.halt})
		}
		in.blockOf[g] = in.blockOf[r]
		b := &in.blocks[in.blockOf[g]]
		b.groups = append(b.groups, g)
	}
	in.classOf = make([]int, len(in.cols))
	for i := range in.blocks {
		if b := &in.blocks[i]; !b.single() {
			shared := in.sharedRows(b)
			if in.makeClasses(b, shared); len(b.classes) > mostClasses {
				shared = nil
				in.makeClasses(b, shared)
			}
			in.compare(b, shared)
		}
	}
}

// A small row joins the groups that share it as long as the block stays within
// these bounds.
const (
	mostTied    = 3
	mostColumns = 2000
)

// tie joins the groups of every near and same rule, then those that share small
// rows; it gives, per group, the first of those joined with it.
func (in *instance) tie(small bool) func(g int) int {
	parent := make([]int, len(in.groups))
	groups := make([]int, len(in.groups)) // joined so far, at the first
	columns := make([]int, len(in.groups))
	for g, span := range in.groups {
		parent[g], groups[g], columns[g] = g, 1, span[1]-span[0]
	}
	var root func(g int) int
	root = func(g int) int {
		if parent[g] != g {
			parent[g] = root(parent[g])
		}
		return parent[g]
	}
	merge := func(g, h int) {
		a, b := root(g), root(h)
		if a == b {
			return
		}
		a, b = min(a, b), max(a, b)
		parent[b] = a
		groups[a] += groups[b]
		columns[a] += columns[b]
	}
	if in.without.blocks {
		return root
	}
	join := func(list []int) {
		for _, g := range list[1:] {
			merge(list[0], g)
		}
	}
	for i := range in.near {
		join(in.near[i].groups)
	}
	for i := range in.same {
		join(in.same[i].groups)
	}
	if !small {
		return root
	}
	for _, list := range in.smallRows() {
		for _, g := range list[1:] {
			a, b := root(list[0]), root(g)
			if a != b && groups[a]+groups[b] <= mostTied && columns[a]+columns[b] <= mostColumns {
				merge(a, b)
			}
		}
	}
	return root
}

// smallRows lists, for every row that few groups take part in, those groups.
func (in *instance) smallRows() [][]int {
	part := make([][]int, len(in.rows))
	for g, span := range in.groups {
		for c := span[0]; c < span[1]; c++ {
			for _, t := range in.cols[c].terms {
				r := t.Row
				if n := len(part[r]); !in.rows[r].dense && !in.rows[r].charges && (n == 0 || part[r][n-1] != g) {
					part[r] = append(part[r], g)
				}
			}
		}
	}
	var out [][]int
	for _, list := range part {
		if len(list) > 1 && len(list) <= 2*mostTied {
			out = append(out, list)
		}
	}
	return out
}

// sharedRows are the small rows that several groups of the block take part in.
// Nothing may lower the sum of such a row, in the block or outside it: what two
// classes take together could have room all the same.
func (in *instance) sharedRows(b *block) []int {
	count := map[int]int{}
	for _, g := range b.groups {
		seen := map[int]bool{}
		for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
			for _, t := range in.cols[c].terms {
				if in.rows[t.Row].dense || in.rows[t.Row].charges {
					continue
				}
				if !seen[t.Row] {
					seen[t.Row] = true
					count[t.Row]++
				}
			}
		}
	}
	var out []int
	for r := range in.rows {
		if count[r] > 1 && !in.rows[r].lowered {
			out = append(out, r)
		}
	}
	return out
}

// makeClasses puts columns of a group that nothing tells apart in one class.
func (in *instance) makeClasses(b *block, shared []int) {
	b.classes, b.groupOf = nil, nil
	var key []byte // the same number of bytes for all columns of a group
	for j, g := range b.groups {
		at := map[string]int{}
		for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
			key = in.bucket(key[:0], c)
			for _, r := range shared {
				key = appendInt(key, coefOf(in.cols[c].terms, r))
			}
			if in.without.classes {
				key = appendInt(key, int64(c))
			}
			k, ok := at[string(key)]
			if !ok {
				k = len(b.classes)
				at[string(key)] = k
				b.classes = append(b.classes, nil)
				b.groupOf = append(b.groupOf, j)
			}
			b.classes[k] = append(b.classes[k], c)
			in.classOf[c] = k
		}
	}
}

// common is a rule that two groups have in common: the places of its values
// among those of their columns.
type common struct {
	a, c int
	tol  int64
}

// commons lists, for every two groups of a block, the near and same rules they
// have in common.
func (in *instance) commons(b *block) (near, same [][][]common) {
	place := map[int]int{}
	near, same = make([][][]common, len(b.groups)), make([][][]common, len(b.groups))
	for x, g := range b.groups {
		place[g] = x
		near[x], same[x] = make([][]common, len(b.groups)), make([][]common, len(b.groups))
	}
	fill := func(out [][][]common, groups, at []int, tol int64) {
		if _, ours := place[groups[0]]; !ours {
			return
		}
		for i, g := range groups {
			for j, h := range groups {
				x, y := place[g], place[h]
				out[x][y] = append(out[x][y], common{at[i], at[j], tol})
			}
		}
	}
	for i := range in.near {
		fill(near, in.near[i].groups, in.near[i].at, in.near[i].tol)
	}
	for i := range in.same {
		fill(same, in.same[i].groups, in.same[i].at, 0)
	}
	return near, same
}

// compare works out which classes go together. Where time is up before that is known,
// all do: bounds then hold, and are weaker.
func (in *instance) compare(b *block, shared []int) {
	near, same := in.commons(b)
	use := make([][]Term, len(b.classes))
	b.goes = make([]bits, len(b.classes))
	for k, cols := range b.classes {
		b.goes[k] = newBits(len(b.classes))
		for _, t := range in.cols[cols[0]].terms {
			if contains(shared, t.Row) {
				use[k] = append(use[k], t)
			}
		}
	}
	for k := range b.classes {
		if k%haltEvery == 0 && in.halt() {
			b.allGo()
			return
		}
		for l := range k {
			x, y := b.groupOf[k], b.groupOf[l]
			if x != y && in.together(&in.cols[b.classes[k][0]], &in.cols[b.classes[l][0]], near[x][y], same[x][y]) && in.roomFor(use[k], use[l]) {
				b.goes[k].add(l)
				b.goes[l].add(k)
			}
		}
	}
}

// haltEvery is how many steps of a loop over classes or columns there are between two
// looks at the clock: each goes over all of them.
const haltEvery = 16

// allGo lets every two classes of different groups go together.
func (b *block) allGo() {
	for k := range b.classes {
		for l := range b.classes {
			if b.groupOf[k] != b.groupOf[l] {
				b.goes[k].add(l)
			}
		}
	}
}

// together says whether the rules let two columns of different groups be picked.
func (in *instance) together(p, q *col, near, same []common) bool {
	for _, m := range near {
		if magnitude(p.near[m.a]-q.near[m.c]) > m.tol {
			return false
		}
	}
	for _, m := range same {
		if l, k := p.same[m.a], q.same[m.c]; l >= 0 && k >= 0 && l != k {
			return false
		}
	}
	return true
}

// roomFor says whether shared rows let two classes be picked.
func (in *instance) roomFor(p, q []Term) bool {
	for _, t := range p {
		for _, u := range q {
			if t.Row == u.Row && t.Coef+u.Coef > in.rows[t.Row].limit {
				return false
			}
		}
	}
	return true
}

// classes sorted for one set of reduced costs.
type ranking struct {
	b     *block
	least []float64 // per class, the least reduced cost of its columns alive
	at    []int     // per class, the column that has it, -1 if none is alive
	order [][]int   // per group, its classes alive by rising least
}

func (b *block) rank(d *domain, rc []float64) *ranking {
	r := &ranking{b: b, least: make([]float64, len(b.classes)), at: make([]int, len(b.classes)), order: make([][]int, len(b.groups))}
	for k, cols := range b.classes {
		r.at[k] = -1
		for _, c := range cols {
			if d.alive.has(c) && (r.at[k] < 0 || rc[c] < r.least[k]) {
				r.least[k], r.at[k] = rc[c], c
			}
		}
		if r.at[k] >= 0 {
			r.order[b.groupOf[k]] = append(r.order[b.groupOf[k]], k)
		}
	}
	for _, list := range r.order {
		slices.SortStableFunc(list, func(x, y int) int { return cmp.Compare(r.least[x], r.least[y]) })
	}
	return r
}
