package solver

// mostClasses bounds the classes of one block; beyond it, shared rows are left
// to the linear program.
const mostClasses = 1200

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
			if x != y && in.together(&in.cols[b.classes[k][0]], &in.cols[b.classes[l][0]], near[x][y], same[x][y]) &&
				in.roomFor(use[k], use[l]) {
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
