package solver

// incumbent is the best solution found so far. Columns are the problem's, so it
// outlives the instance it was found in.
type incumbent struct {
	has   bool
	total int64
	tie   [2]int64
	pick  []int
	vol   []bool
	trail []found // the solutions that were the best before it, the latest last
}

// found is a solution.
type found struct {
	pick []int
	vol  []bool
}

// mostTrail is how many of them are kept.
const mostTrail = 4

// after is the trail of a solution that is better than b.
func (b *incumbent) after() []found {
	if !b.has {
		return nil
	}
	trail := append(b.trail[:len(b.trail):len(b.trail)], found{b.pick, b.vol})
	return trail[max(0, len(trail)-mostTrail):]
}

// offer takes the tally's pick, with its best setting of voluntary switches, if
// it breaks no rule and is better: a smaller total, then smaller ties.
func (b *incumbent) offer(t *tally) bool {
	if !t.in.rulesHold(t.pick) {
		return false
	}
	taken := false
	t.withVoluntary(0, func() {
		total := t.total(t.charges())
		if b.has && total > b.total {
			return
		}
		tie := t.tie()
		if b.has && total == b.total && (tie[0] > b.tie[0] || (tie[0] == b.tie[0] && tie[1] >= b.tie[1])) {
			return
		}
		*b = incumbent{has: true, total: total, tie: tie, vol: append([]bool(nil), t.vol...), trail: b.after()}
		for _, c := range t.pick {
			b.pick = append(b.pick, t.in.cols[c].orig)
		}
		taken = true
	})
	return taken
}

func (t *tally) tie() (sum [2]int64) {
	for _, c := range t.pick {
		sum[0] += t.in.cols[c].tie[0]
		sum[1] += t.in.cols[c].tie[1]
	}
	return sum
}

// upper is what a total must be below to be of interest.
func (b *incumbent) upper(otherwise int64) int64 {
	if b.has {
		return min(b.total, otherwise)
	}
	return otherwise
}

// rulesHold checks near and same rules over the groups picked so far.
func (in *instance) rulesHold(pick []int) bool {
	for i := range in.near {
		n := &in.near[i]
		lo, hi := Limit, -Limit
		for a, g := range n.groups {
			if c := pick[g]; c >= 0 {
				v := in.cols[c].near[n.at[a]]
				lo, hi = min(lo, v), max(hi, v)
			}
		}
		if hi > lo && hi-lo > n.tol {
			return false
		}
	}
	for i := range in.same {
		s := &in.same[i]
		label := -1
		for a, g := range s.groups {
			c := pick[g]
			if c < 0 {
				continue
			}
			l := in.cols[c].same[s.at[a]]
			if l < 0 {
				continue
			}
			if label >= 0 && l != label {
				return false
			}
			label = l
		}
	}
	return true
}
