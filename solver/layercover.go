package solver

import (
	"cmp"
	"slices"
)

// comparedPerStep is how many partial picks can be compared with another in the time of a step:
// where many rows are tight, few make another needless, and comparing them is most of the work.
const comparedPerStep = 16

// undominated leaves out what another partial pick makes needless: with the same switches
// on, it costs no more, takes up no more of anything, and loses no tie.
func (l *layering) undominated(list []partial) []partial {
	slices.SortStableFunc(list, func(a, b partial) int {
		if a.cost != b.cost {
			return cmp.Compare(a.cost, b.cost)
		}
		switch {
		case a.tie.less(b.tie):
			return -1
		case b.tie.less(a.tie):
			return 1
		}
		return 0
	})
	out, compared := list[:0], 0
	kept := map[uint64][]int32{}
	for n := range list {
		p := &list[n]
		h := l.hash(p)
		at := slices.IndexFunc(kept[h], func(k int32) bool { return out[k].covers(p) })
		if at >= 0 {
			compared += at
			continue
		}
		compared += len(kept[h])
		if len(kept[h]) < mostCovering {
			kept[h] = append(kept[h], int32(len(out)))
		}
		out = append(out, *p)
	}
	l.left -= compared / comparedPerStep
	return out
}

// covers says whether p, which costs no more, takes up no more either.
func (p *partial) covers(q *partial) bool {
	if p.mask != q.mask {
		return false
	}
	for x, v := range p.use {
		if v > q.use[x] {
			return false
		}
	}
	return true
}

// hash is equal where the switches and what is taken up of small rows are.
func (l *layering) hash(p *partial) uint64 {
	h := scatter(p.mask)
	for x := range l.dims {
		if l.dims[x].small {
			h = scatter(h ^ uint64(p.use[x]))
		}
	}
	return h
}
