package solver

// ties are what solutions of equal total are compared by, less being better, the first
// first. The last is a rank that no two of them share but by a rare chance: with it the
// answer is one and the same whatever was met first.
type ties [3]int64

func (a ties) less(b ties) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

// ranks is, per group, what a column's rank rises by from one number to the next: more for
// the groups that come first, so that these have the columns that come first. Beyond that
// they are scattered, so that sums of different picks differ, and so small that all sums
// are exact.
func (p *Problem) ranks(numbers [][]int64) []int64 {
	most, n := int64(1), uint64(len(p.Groups)+1)
	for g := range numbers {
		for _, k := range numbers[g] {
			most = max(most, k+1)
		}
	}
	step := uint64(1<<50) / uint64(most) / n / n
	out := make([]int64, len(p.Groups))
	for g := range out {
		out[g] = int64((n-uint64(g))*step/2 + scatter(uint64(g))%(step/2+1) + 1)
	}
	return out
}

// scatter gives numbers with nothing in common for numbers that follow each other
// (the finalizer of SplitMix64, Steele, Lea and Flood 2014; from memory).
func scatter(v uint64) uint64 {
	v += 0x9e3779b97f4a7c15
	v = (v ^ v>>30) * 0xbf58476d1ce4e5b9
	v = (v ^ v>>27) * 0x94d049bb133111eb
	return v ^ v>>31
}

// tieNodes bounds the nodes in which solutions of equal total are looked for.
const tieNodes = 400

// tieTries is how many nodes may turn out too large to be enumerated before no more are
// tried. Tests set it.
var tieTries = 8

// settleTies goes on, after the least total is proven, among the nodes that may hold
// solutions as good, until the one with the least ties is known. Those are looked through
// one by one where they are small; else they are searched with the first tie for the
// total, and the total for one more row, then with the next. It says whether it got
// through.
func (s *search) settleTies(nodes int) (bool, error) {
	s.enumerateTies()
	if len(s.queue) == 0 {
		return true, nil
	}
	if s.halted() || nodes <= 0 {
		return false, nil
	}
	t := s.nextTie(nodes)
	if err := t.branchAndBound(); err != nil {
		return false, err
	}
	settled := !t.ended
	if settled && t.best.equal {
		var err error
		if settled, err = t.settleTies(nodes - t.nodes); err != nil {
			return false, err
		}
	}
	s.lps += t.lps
	s.best.pick, s.best.vol = t.best.pick, t.best.vol
	s.best.tie = ties{t.best.total, t.best.tie[0], t.best.tie[1]}
	return settled, nil
}

// settle decides among solutions of equal total once the least is proven.
func (s *search) settle() (err error) {
	if s.ended || !s.best.has || !s.best.equal {
		return nil
	}
	if s.settled, err = s.settleTies(tieNodes); err != nil {
		return err
	}
	s.settled = s.settleVoluntary() && s.settled
	return nil
}

// settleVoluntary takes, beside the pick in hand, the first of the best settings.
func (s *search) settleVoluntary() bool {
	if len(s.in.voluntary) == 0 {
		return true
	}
	d, _ := s.begin()
	t := s.in.newTally()
	for g := range s.in.groups {
		t.set(g, s.in.columnOf(d, g, s.best.pick[g]))
	}
	exact, _ := t.withVoluntary(nil, s.best.total, 10*mostSettings, func() {
		if t.total(t.charges()) == s.best.total {
			s.best.vol = append([]bool(nil), t.vol...)
		}
	})
	return exact
}

// enumerateTies goes through the nodes that wait and leaves those that are too large.
func (s *search) enumerateTies() {
	left, tries := nodeQueue(nil), 0
	for _, n := range s.queue {
		if n.value > float64(s.best.reach(s.other)-1) {
			continue
		}
		b := s.in.lagrangian(n.d, n.y, true)
		if s.reduce(n.d, b, &s.best) {
			continue
		}
		if tries < tieTries && s.in.enumerate(n.d, b, &s.best, s.other, s.picksAtMost(), s.halted) {
			continue
		}
		tries++
		left = append(left, n)
	}
	s.queue = left
}

// nextTie is the search among the nodes that wait in which the first tie is the total.
func (s *search) nextTie(nodes int) *search {
	all := newBits(len(s.in.cols))
	for _, n := range s.queue {
		all.join(n.d.alive)
	}
	in := s.in.among(all, s.best.total)
	set := s.set
	set.NodeLimit, set.Gap, set.Progress = nodes, 0, nil
	t := &search{p: s.p, ch: s.ch, set: set, ctx: s.ctx, began: s.began, memory: &memory{}, leave: s.leave, in: in,
		other: in.beyond(), known: history{}, bound: -Limit, level: s.level + 1}
	t.best = incumbent{
		has:   true,
		total: s.best.tie[0],
		tie:   ties{s.best.tie[1], s.best.tie[2]},
		equal: t.level < len(ties{}),
		pick:  s.best.pick,
		vol:   s.best.vol,
	}
	for _, n := range s.queue {
		d := &domain{alive: n.d.alive.among(all, len(s.in.cols)), y: append([]int8(nil), n.d.y...)}
		if in.propagate(d) {
			t.push(&node{d: d, y: in.zeroDuals(), pool: in.newPool(), value: float64(-Limit)})
		}
	}
	return t
}

// among is the instance of the columns in all, in which the total is a row with a limit
// and the first tie takes its place.
func (in *instance) among(all bits, most int64) *instance {
	out := in.keep(all)
	r := len(out.rows)
	out.rows = append(out.rows, row{limit: most, charges: in.charged, orig: -1})
	for c := range out.cols {
		k := &out.cols[c]
		if k.cost != 0 {
			k.terms = append(k.terms[:len(k.terms):len(k.terms)], Term{r, k.cost})
		}
		k.cost, k.tie = k.tie[0], ties{k.tie[1], k.tie[2]}
	}
	out.charged = false
	out.index()
	out.findBlocks(true)
	return out
}
