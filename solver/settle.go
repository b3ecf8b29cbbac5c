package solver

import (
	"sort"
)

// settle restricts a copy of d, block by block, to the picks with the most
// weight in the LP: those it is sure of and at least one more. A pick that leaves
// no solution is passed over. Nil if none can be settled.
func (in *instance) settle(d *domain, r *relaxation) *domain {
	type weighed struct {
		block int
		combo
	}
	var list []weighed
	for i, combos := range r.combo {
		if !in.settled(d, i) {
			for _, k := range combos {
				list = append(list, weighed{i, k})
			}
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].weight > list[b].weight })
	done := false
	settled := make([]bool, len(in.blocks))
	if sure := in.settleSure(d, r); sure != nil {
		d, done = sure, true
	}
	for n, k := range list {
		if k.weight < 0.9999 && done && n >= len(list)/6 {
			break
		}
		if settled[k.block] || !in.aliveAll(d, k.cols) || in.settled(d, k.block) {
			continue
		}
		try := d.clone()
		in.restrict(try, k.block, k.cols)
		if !in.propagate(try) {
			continue
		}
		d, done = try, true
		settled[k.block] = true
	}
	if !done {
		return nil
	}
	return d
}

// settleSure settles all blocks at once that the LP is sure of. Nil if there are
// none, or they don't go together.
func (in *instance) settleSure(d *domain, r *relaxation) *domain {
	try, any := d.clone(), false
	for i, combos := range r.combo {
		for _, k := range combos {
			if k.weight >= 0.9999 && in.aliveAll(d, k.cols) {
				in.restrict(try, i, k.cols)
				any = true
			}
		}
	}
	if !any || try.alive.count() == d.alive.count() || !in.propagate(try) {
		return nil
	}
	return try
}

// settled says whether a block has one pick left.
func (in *instance) settled(d *domain, block int) bool {
	for _, g := range in.blocks[block].groups {
		if in.count(d, g, 2) > 1 {
			return false
		}
	}
	return true
}

func (in *instance) restrict(d *domain, block int, cols []int) {
	for i, g := range in.blocks[block].groups {
		for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
			if c != cols[i] {
				d.alive.drop(c)
			}
		}
	}
}
