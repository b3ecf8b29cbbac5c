package solver

import (
	"math"
	"sort"
)

// block is a set of groups tied together by near and same rules, or a single
// group. The columns of a larger block fall into classes that the rules can't
// tell apart. Its windows are the maximal ways to meet the rules: a pick is
// allowed if the classes of all its columns are in one window. Within a window
// the groups are independent, so the cheapest pick of a block is a minimum per
// group and window.
type block struct {
	groups  []int
	classes [][]int   // columns of each class; nil for a single group
	windows [][][]int // window, group (as in groups), classes
	relaxed bool      // too many windows: some rules are left to branching
}

// single says whether the block is one group.
func (b *block) single() bool { return len(b.groups) == 1 }

// mostWindows bounds the windows of one block.
const mostWindows = 1500

// findBlocks finds the blocks of an instance and their windows. The instance
// must be through with large reductions: windows are made anew for each.
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
			a, b := root(groups[0]), root(g)
			parent[max(a, b)] = min(a, b)
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
	in.classOf = make([]int, len(in.cols))
	for i := range in.blocks {
		if b := &in.blocks[i]; !b.single() {
			in.makeClasses(b)
			in.makeWindows(b)
		}
	}
}

// makeClasses puts columns of a group that no rule tells apart in one class.
func (in *instance) makeClasses(b *block) {
	for _, g := range b.groups {
		at := map[string]int{}
		for c := in.groups[g][0]; c < in.groups[g][1]; c++ {
			key := in.bucket(c)
			k, ok := at[key]
			if !ok {
				k = len(b.classes)
				at[key] = k
				b.classes = append(b.classes, nil)
			}
			b.classes[k] = append(b.classes[k], c)
			in.classOf[c] = k
		}
	}
}

// makeWindows enumerates a block's windows rule by rule; if there are too many,
// it leaves the last rules out.
func (in *instance) makeWindows(b *block) {
	start := make([][]int, len(b.groups))
	for i, g := range b.groups {
		for k, cols := range b.classes {
			if in.cols[cols[0]].group == g {
				start[i] = append(start[i], k)
			}
		}
	}
	b.windows = [][][]int{start}
	step := func(split func(w [][]int) [][][]int) {
		if b.relaxed {
			return
		}
		var next [][][]int
		for _, w := range b.windows {
			next = append(next, split(w)...)
			if len(next) > 4*mostWindows {
				b.relaxed = true
				return
			}
		}
		if next = maximal(next, len(b.classes)); len(next) > mostWindows {
			b.relaxed = true
			return
		}
		b.windows = next
	}
	for i := range in.same {
		if s := &in.same[i]; in.blockOf[s.groups[0]] == in.blockOf[b.groups[0]] {
			label := func(k int) int { return s.label[b.classes[k][0]] }
			step(func(w [][]int) [][][]int { return splitSame(b.groups, s.groups, w, label) })
		}
	}
	for i := range in.near {
		if n := &in.near[i]; in.blockOf[n.groups[0]] == in.blockOf[b.groups[0]] {
			value := func(k int) int64 { return n.value[b.classes[k][0]] }
			step(func(w [][]int) [][][]int { return splitNear(b.groups, n.groups, w, value, n.tol) })
		}
	}
}

// filter is window w with only the classes for which ok holds in groups of the
// rule; nil if a group is left empty.
func filter(groups, rule []int, w [][]int, ok func(k int) bool) [][]int {
	out := make([][]int, len(w))
	for i, g := range groups {
		if !contains(rule, g) {
			out[i] = w[i]
			continue
		}
		for _, k := range w[i] {
			if ok(k) {
				out[i] = append(out[i], k)
			}
		}
		if len(out[i]) == 0 {
			return nil
		}
	}
	return out
}

func splitSame(groups, rule []int, w [][]int, label func(k int) int) [][][]int {
	seen := map[int]bool{}
	var list []int
	for i, g := range groups {
		for _, k := range w[i] {
			if l := label(k); contains(rule, g) && l >= 0 && !seen[l] {
				seen[l] = true
				list = append(list, l)
			}
		}
	}
	if len(list) == 0 {
		return [][][]int{w}
	}
	sort.Ints(list)
	var out [][][]int
	for _, l := range list {
		if f := filter(groups, rule, w, func(k int) bool { return label(k) < 0 || label(k) == l }); f != nil {
			out = append(out, f)
		}
	}
	return out
}

func splitNear(groups, rule []int, w [][]int, value func(k int) int64, tol int64) [][][]int {
	var values []int64
	for i, g := range groups {
		for _, k := range w[i] {
			if contains(rule, g) {
				values = append(values, value(k))
			}
		}
	}
	values = distinct(values)
	var out [][][]int
	top := -1 // last value within the window before this one
	for i, v := range values {
		last := i
		for last+1 < len(values) && values[last+1] <= v+tol {
			last++
		}
		if last == top {
			continue // all of it was in the window before
		}
		top = last
		if f := filter(groups, rule, w, func(k int) bool { return value(k) >= v && value(k) <= v+tol }); f != nil {
			out = append(out, f)
		}
	}
	return out
}

// maximal drops windows contained in another.
func maximal(windows [][][]int, classes int) [][][]int {
	sets := make([]bits, len(windows))
	size := make([]int, len(windows))
	order := make([]int, len(windows))
	for i, w := range windows {
		sets[i] = newBits(classes)
		order[i] = i
		for _, list := range w {
			size[i] += len(list)
			for _, k := range list {
				sets[i].add(k)
			}
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return size[order[i]] > size[order[j]] })
	var out [][][]int
	var kept []bits
	for _, i := range order {
		inside := false
		for _, k := range kept {
			if inside = sets[i].within(k); inside {
				break
			}
		}
		if !inside {
			kept = append(kept, sets[i])
			out = append(out, windows[i])
		}
	}
	return out
}

// classMins is, per class, the least reduced cost of its columns alive and the
// column that has it, -1 if none is.
func (b *block) classMins(d *domain, rc []float64) (least []float64, at []int) {
	least, at = make([]float64, len(b.classes)), make([]int, len(b.classes))
	for k, cols := range b.classes {
		least[k], at[k] = math.Inf(1), -1
		for _, c := range cols {
			if rc[c] < least[k] && d.alive.has(c) {
				least[k], at[k] = rc[c], c
			}
		}
	}
	return least, at
}

// pick is the cheapest pick of window w, given the least of every class: its
// sum and, put into into, the class per group. An impossible window has an
// infinite sum.
func (b *block) pick(w int, least []float64, into []int) float64 {
	sum := 0.0
	for j, list := range b.windows[w] {
		v, at := math.Inf(1), -1
		for _, k := range list {
			if least[k] < v {
				v, at = least[k], k
			}
		}
		sum += v
		into[j] = at
	}
	return sum
}
