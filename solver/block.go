package solver

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
