package catalog

import (
	"cmp"
	"slices"
)

// orderWorks puts the trade works in the order in which they are done, before anything
// refers to one of them: the table of works is in this order, and with it whatever goes
// through it. Where two have the same order, the one written first comes first.
func (l *loader) orderWorks(tables []*table) {
	order := make([]int, len(l.works.order))
	for i := range order {
		order[i] = PlatingOrder
	}
	for _, t := range tables {
		if given, isWhole := t.m["order"].(int64); isWhole && given >= 0 && given <= MaxOrder {
			if i, known := l.works.find(t.id); known {
				order[i] = int(given)
			}
		}
	}
	l.works.sort(func(a, b int) int { return cmp.Compare(order[a], order[b]) })
}

// sort gives the names other indices, in an order of the old ones; of two that are equal
// the older one comes first.
func (n *names) sort(compare func(a, b int) int) {
	old := make([]int, len(n.order))
	for i := range old {
		old[i] = i
	}
	slices.SortStableFunc(old, compare)
	order, first := n.order, n.first
	n.order, n.first = nil, nil
	for i, was := range old {
		n.index[order[was]] = i
		n.order = append(n.order, order[was])
		n.first = append(n.first, first[was])
	}
}
