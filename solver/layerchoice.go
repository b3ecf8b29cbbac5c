package solver

import (
	"cmp"
	"slices"
)

// choice is a pick of one block.
type choice struct {
	cols  []int
	cost  int64
	tie   ties
	mask  uint64 // switches it needs
	terms []Term // what it takes up, by dim
	rc    [mostJudges]float64
	miss  [mostJudges][]missed
}

// mostStageChoices bounds the choices of one block.
const mostStageChoices = 500

// choices lists those of a block that come to no more than gap beyond the block's least,
// none that another makes needless. False: there are too many.
func (l *layering) choices(i int, b *bound, gap float64) ([]choice, bool) {
	w := &blockChoices{l: l, blk: &l.in.blocks[i], b: b, most: b.block[i] + gap}
	if !w.run() {
		return nil, false
	}
	slices.SortStableFunc(w.out, func(a, c choice) int {
		return cmp.Or(cmp.Compare(a.cost, c.cost), slices.Compare(a.tie[:], c.tie[:]))
	})
	var list []choice
	kept := map[uint64][]int{} // by the switches they need
next:
	for n := range w.out {
		k := &w.out[n]
		for _, at := range kept[k.mask] {
			if noMore(list[at].terms, k.terms) {
				continue next
			}
		}
		kept[k.mask] = append(kept[k.mask], len(list))
		list = append(list, *k)
	}
	return list, len(list) <= mostStageChoices
}

// noMore says whether the first takes up no more than the second of anything.
func noMore(a, b []Term) bool {
	for len(a) > 0 || len(b) > 0 {
		switch {
		case len(b) == 0 || len(a) > 0 && a[0].Row < b[0].Row:
			if a[0].Coef > 0 {
				return false
			}
			a = a[1:]
		case len(a) == 0 || b[0].Row < a[0].Row:
			if b[0].Coef < 0 {
				return false
			}
			b = b[1:]
		default:
			if a[0].Coef > b[0].Coef {
				return false
			}
			a, b = a[1:], b[1:]
		}
	}
	return true
}

// blockChoices goes through the picks of one block.
type blockChoices struct {
	l     *layering
	blk   *block
	b     *bound
	most  float64
	lists [][]int
	left  []float64
	cols  []int
	steps int
	out   []choice
}

func (w *blockChoices) run() bool {
	in, n := w.l.in, len(w.blk.groups)
	w.lists, w.left, w.cols = make([][]int, n), make([]float64, n+1), make([]int, n)
	for j := n - 1; j >= 0; j-- {
		g := w.blk.groups[j]
		for c := in.first(w.l.d, g); c < in.groups[g][1]; c = w.l.d.alive.next(c+1, in.groups[g][1]) {
			w.lists[j] = append(w.lists[j], c)
		}
		slices.SortStableFunc(w.lists[j], func(a, c int) int { return cmp.Compare(w.b.rc[a], w.b.rc[c]) })
		if len(w.lists[j]) == 0 {
			return true
		}
		w.left[j] = w.left[j+1] + w.b.rc[w.lists[j][0]]
	}
	return w.walk(0, 0)
}

func (w *blockChoices) walk(j int, v float64) bool {
	if j == len(w.lists) {
		w.out = append(w.out, w.choice())
		return len(w.out) <= 4*mostStageChoices
	}
	in := w.l.in
next:
	for _, c := range w.lists[j] {
		if v+w.b.rc[c]+w.left[j+1] > w.most {
			break
		}
		if w.steps++; w.steps > 40*mostStageChoices {
			return false
		}
		if len(w.lists) > 1 {
			for _, o := range w.cols[:j] {
				if !w.blk.goes[in.classOf[o]].has(in.classOf[c]) {
					continue next
				}
			}
		}
		w.cols[j] = c
		if !w.walk(j+1, v+w.b.rc[c]) {
			return false
		}
	}
	return true
}

// choice adds up the columns chosen.
func (w *blockChoices) choice() choice {
	l := w.l
	k := choice{cols: slices.Clone(w.cols)}
	for _, c := range k.cols {
		q := &l.in.cols[c]
		k.cost += q.cost
		for t, v := range q.tie {
			k.tie[t] += v
		}
		for _, h := range q.needs {
			if l.bit[h] >= 0 {
				k.mask |= 1 << l.bit[h]
			}
		}
	}
	for x := range l.dims {
		if v := l.amount(k.cols, x); v != 0 {
			k.terms = append(k.terms, Term{x, v})
		}
	}
	return k
}

// amount is what columns take up of a dim.
func (l *layering) amount(cols []int, x int) (sum int64) {
	d := &l.dims[x]
	for _, c := range cols {
		if d.row >= 0 {
			sum += coefOf(l.in.cols[c].terms, d.row)
			continue
		}
		for _, k := range l.in.cols[c].loads {
			if k.Switch == d.sw {
				sum -= k.Amount
			}
		}
	}
	return sum
}
