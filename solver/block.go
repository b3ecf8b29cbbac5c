package solver

import "sort"

// block is a set of groups tied together by near and same rules, or a single
// group. Its windows are the maximal ways to meet the rules: a pick is allowed
// if all its columns are in one window. Within a window the groups are
// independent, so the cheapest pick of a block is a minimum per group and window.
type block struct {
	groups  []int
	windows [][][]int // window, group (as in groups), columns; nil for a single group
	relaxed bool      // too many windows: some rules are left to branching
}

// mostWindows bounds the windows of one block.
const mostWindows = 2000

func (in *instance) findBlocks() {
	parent := make([]int, len(in.groups))
	for g := range parent {
		parent[g] = g
	}
	var root func(g int) int
	root = func(g int) int {
		if parent[g] != g {
			parent[g] = root(parent[g])
		}
		return parent[g]
	}
	join := func(groups []int) {
		for _, g := range groups[1:] {
			parent[max(root(groups[0]), root(g))] = min(root(groups[0]), root(g))
		}
	}
	for i := range in.near {
		join(in.near[i].groups)
	}
	for i := range in.same {
		join(in.same[i].groups)
	}
	in.blocks = nil
	in.blockOf = make([]int, len(in.groups))
	for g := range in.groups {
		r := root(g)
		if r == g {
			in.blockOf[g] = len(in.blocks)
			in.blocks = append(in.blocks, block{})
		}
		in.blockOf[g] = in.blockOf[r]
		b := &in.blocks[in.blockOf[g]]
		b.groups = append(b.groups, g)
	}
	for i := range in.blocks {
		if len(in.blocks[i].groups) > 1 {
			in.makeWindows(&in.blocks[i])
		}
	}
}

// makeWindows enumerates a block's windows rule by rule; if there are too many,
// it leaves the last rules out.
func (in *instance) makeWindows(b *block) {
	var start [][]int
	for _, g := range b.groups {
		var cols []int
		for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
			cols = append(cols, c)
		}
		start = append(start, cols)
	}
	windows := [][][]int{start}
	step := func(split func(w [][]int) [][][]int) {
		if b.relaxed {
			return
		}
		var next [][][]int
		for _, w := range windows {
			next = append(next, split(w)...)
			if len(next) > 4*mostWindows {
				b.relaxed = true
				return
			}
		}
		next = maximal(next, len(in.cols))
		if len(next) > mostWindows {
			b.relaxed = true
			return
		}
		windows = next
	}
	for i := range in.same {
		if s := &in.same[i]; in.blockOf[s.groups[0]] == in.blockOf[b.groups[0]] {
			step(func(w [][]int) [][][]int { return splitSame(b.groups, s, w) })
		}
	}
	for i := range in.near {
		if n := &in.near[i]; in.blockOf[n.groups[0]] == in.blockOf[b.groups[0]] {
			step(func(w [][]int) [][][]int { return splitNear(b.groups, n, w) })
		}
	}
	b.windows = windows
}

// filter is window w with only the columns for which ok holds in groups of the
// rule; nil if a group is left empty.
func filter(groups, rule []int, w [][]int, ok func(c int) bool) [][]int {
	out := make([][]int, len(w))
	for i, g := range groups {
		if !contains(rule, g) {
			out[i] = w[i]
			continue
		}
		for _, c := range w[i] {
			if ok(c) {
				out[i] = append(out[i], c)
			}
		}
		if len(out[i]) == 0 {
			return nil
		}
	}
	return out
}

func splitSame(groups []int, s *sameRule, w [][]int) [][][]int {
	labels := map[int]bool{-1: true}
	for i, g := range groups {
		for _, c := range w[i] {
			if contains(s.groups, g) && s.label[c] >= 0 {
				labels[s.label[c]] = true
			}
		}
	}
	var list []int
	for l := range labels {
		list = append(list, l)
	}
	sort.Ints(list)
	var out [][][]int
	for _, l := range list {
		if l < 0 && len(list) > 1 {
			continue // contained in every other
		}
		if f := filter(groups, s.groups, w, func(c int) bool { return s.label[c] < 0 || s.label[c] == l }); f != nil {
			out = append(out, f)
		}
	}
	return out
}

func splitNear(groups []int, n *nearRule, w [][]int) [][][]int {
	values := map[int64]bool{}
	for i, g := range groups {
		for _, c := range w[i] {
			if contains(n.groups, g) {
				values[n.value[c]] = true
			}
		}
	}
	var list []int64
	for v := range values {
		list = append(list, v)
	}
	sort.Slice(list, func(i, j int) bool { return list[i] < list[j] })
	var out [][][]int
	for _, v := range list {
		if f := filter(groups, n.groups, w, func(c int) bool { return n.value[c] >= v && n.value[c] <= v+n.tol }); f != nil {
			out = append(out, f)
		}
	}
	return out
}

// maximal drops windows contained in another.
func maximal(windows [][][]int, cols int) [][][]int {
	sets := make([]bits, len(windows))
	size := make([]int, len(windows))
	for i, w := range windows {
		sets[i] = newBits(cols)
		for _, list := range w {
			size[i] += len(list)
			for _, c := range list {
				sets[i].add(c)
			}
		}
	}
	order := make([]int, len(windows))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return size[order[i]] > size[order[j]] })
	var kept []int
	for _, i := range order {
		inside := false
		for _, k := range kept {
			if inside = sets[i].within(sets[k]); inside {
				break
			}
		}
		if !inside {
			kept = append(kept, i)
		}
	}
	out := make([][][]int, len(kept))
	for i, k := range kept {
		out[i] = windows[k]
	}
	return out
}
