package solver

import (
	"encoding/binary"
	"sort"
)

// undominated is the set of columns worth keeping: column a puts column b of its
// group out if a is no dearer and every solution with b stays a solution with a
// in its place. That holds if a is at most b in every row, needs no switch that
// b does not need (where dropping a need can lower no row and raise no charge),
// has the same value in near rules and the same label in same rules, and what a
// plater's minimum could cost more, because a counts less towards it, is in a's
// price already.
func (in *instance) undominated() bits {
	alive := fullBits(len(in.cols))
	free := in.droppable()
	for _, span := range in.groups {
		buckets := map[string][]int{}
		var keys []string
		for c := span[0]; c < span[1]; c++ {
			k := string(in.bucket(nil, c))
			if buckets[k] == nil {
				keys = append(keys, k)
			}
			buckets[k] = append(buckets[k], c)
		}
		for _, k := range keys {
			in.thin(buckets[k], free, alive)
		}
	}
	return alive
}

// droppable says per switch whether its going off can only help.
func (in *instance) droppable() []bool {
	free := make([]bool, len(in.switches))
	for h := range in.switches {
		s := &in.switches[h]
		free[h] = s.fixed >= 0
		for _, t := range s.terms {
			free[h] = free[h] && t.Coef >= 0
		}
	}
	return free
}

// bucket adds to key what must be equal: values of near rules and labels of same
// rules. It adds as many bytes for every column of a group.
func (in *instance) bucket(key []byte, c int) []byte {
	k := &in.cols[c]
	for _, v := range k.near {
		key = appendInt(key, v)
	}
	for _, l := range k.same {
		key = appendInt(key, int64(l))
	}
	return key
}

// appendInt adds all eight bytes of a number to a key.
func appendInt(key []byte, v int64) []byte { return binary.BigEndian.AppendUint64(key, uint64(v)) }

func (in *instance) thin(list []int, free []bool, alive bits) {
	sort.SliceStable(list, func(i, j int) bool {
		a, b := &in.cols[list[i]], &in.cols[list[j]]
		if a.cost != b.cost {
			return a.cost < b.cost
		}
		if a.tie != b.tie {
			return a.tie.less(b.tie)
		}
		return a.orig < b.orig
	})
	var kept []int
	for i, c := range list {
		if i%haltEvery == 0 && in.halt() {
			return // those not looked at stay
		}
		out := false
		for _, k := range kept {
			if out = in.dominates(k, c, free); out {
				break
			}
		}
		if out {
			alive.drop(c)
		} else {
			kept = append(kept, c)
		}
	}
}

// dominates compares two columns of one bucket; a sorts before b.
func (in *instance) dominates(a, b int, free []bool) bool {
	x, y := &in.cols[a], &in.cols[b]
	j := 0
	for _, h := range x.needs {
		for j < len(y.needs) && y.needs[j] < h {
			if !free[y.needs[j]] {
				return false
			}
			j++
		}
		if j == len(y.needs) || y.needs[j] != h {
			return false
		}
		j++
	}
	for ; j < len(y.needs); j++ {
		if !free[y.needs[j]] {
			return false
		}
	}
	cost := x.cost
	if in.charged {
		cost += in.shortfall(x, y, 0)
	}
	if cost > y.cost || cost == y.cost && y.tie.less(x.tie) {
		return false // where they cost the same, ties count
	}
	return in.rowsAtMost(x, y)
}

// shortfall is the most by which minimums that one account pays for can have to be
// topped up more with x than with y.
func (in *instance) shortfall(x, y *col, account int) int64 {
	sum := int64(0)
	i := 0
	for _, l := range y.loads {
		if in.switches[l.Switch].account != account {
			continue
		}
		for i < len(x.loads) && x.loads[i].Switch < l.Switch {
			i++
		}
		has := int64(0)
		if i < len(x.loads) && x.loads[i].Switch == l.Switch {
			has = x.loads[i].Amount
		}
		sum += max(0, min(l.Amount, in.switches[l.Switch].minimum)-has)
	}
	return sum
}

func (in *instance) rowsAtMost(x, y *col) bool {
	i, j := 0, 0
	if len(y.loads) > 0 {
		// An extra charge counts in rows of charges; they may have no term.
		for r := range in.rows {
			if !in.rows[r].charges {
				continue
			}
			if more := in.shortfall(x, y, in.rows[r].account); more > 0 && coefOf(x.terms, r)+more > coefOf(y.terms, r) {
				return false
			}
		}
	}
	for i < len(x.terms) || j < len(y.terms) {
		switch {
		case j == len(y.terms) || (i < len(x.terms) && x.terms[i].Row < y.terms[j].Row):
			if x.terms[i].Coef > 0 {
				return false
			}
			i++
		case i == len(x.terms) || y.terms[j].Row < x.terms[i].Row:
			if y.terms[j].Coef < 0 {
				return false
			}
			j++
		default:
			if x.terms[i].Coef > y.terms[j].Coef {
				return false
			}
			i++
			j++
		}
	}
	return true
}

func coefOf(terms []Term, r int) int64 {
	for _, t := range terms {
		if t.Row == r {
			return t.Coef
		}
	}
	return 0
}
