package solver

// incumbent is the best solution found so far. Columns are the problem's, so it
// outlives the instance it was found in.
type incumbent struct {
	has   bool
	total int64
	tie   ties
	equal bool // others of the same total are of interest too, for their ties
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

// offer takes the tally's pick, with the best setting of voluntary switches that it
// finds, if it breaks no rule and is better: a smaller total, then smaller ties.
func (b *incumbent) offer(t *tally) bool {
	taken, _, _ := b.offerWithin(t, nil, mostSettings)
	return taken
}

// offerWithin is offer with the settings that a domain leaves, looking at budget of
// them. exact: nothing with this pick is better than what is in hand then.
func (b *incumbent) offerWithin(t *tally, y []int8, budget int) (taken, exact bool, used int) {
	most := Limit
	if b.has {
		most = b.total
	}
	if !t.in.rulesHold(t.pick) {
		return false, true, 0
	}
	exact, used = t.withVoluntary(y, most, budget, func() { taken = b.take(t) })
	return taken, exact, used
}

// take takes the tally's pick as it is, if it is better.
func (b *incumbent) take(t *tally) bool {
	now := incumbent{has: true, total: t.total(t.charges()), tie: t.tie(), equal: b.equal}
	if b.has && !better(&now, b) {
		return false
	}
	now.vol, now.trail = append([]bool(nil), t.vol...), b.after()
	for _, c := range t.pick {
		now.pick = append(now.pick, t.in.cols[c].orig)
	}
	*b = now
	return true
}

func (t *tally) tie() (sum ties) {
	for _, c := range t.pick {
		for i, v := range t.in.cols[c].tie {
			sum[i] += v
		}
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

// reach is what a total must be below to be as good.
func (b *incumbent) reach(otherwise int64) int64 {
	if b.has && b.equal {
		return min(b.total+1, otherwise)
	}
	return b.upper(otherwise)
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
