package solver

import (
	"container/heap"
	"math"
	"sync"
	"time"
)

// batch is how many nodes are worked on between two looks at the best solution.
// It is fixed, so that the search does not depend on the number of goroutines.
const batch = 4

// smallPicks is how many picks a node may enumerate before it is branched.
const smallPicks = 3000

// picksAtMost is that, and enough for the one pick of a node that can't be branched.
func (s *search) picksAtMost() int {
	if s.leave.walks {
		return len(s.in.groups)
	}
	return smallPicks + len(s.in.groups)
}

// outcome is what working on a node gave.
type outcome struct {
	children []*node
	best     incumbent
	lps      int
	err      error
	cut      bool // halted before it was finished: the node stays open
	learnt   []lesson
	r        *relaxation // of the node, where it was branched
}

// The search looks for a better solution from the node it is at after this many
// nodes: soon at first, since what is found deep down is better than what the root
// gives, and rules out most of the columns.
const (
	firstDive = 8
	diveEvery = 48
)

// sweepEvery is how many nodes there are at least between two sweeps.
const sweepEvery = 8

// lesson is what one trial of a cut has raised a child's bound by.
type lesson struct {
	key  candidateKey
	side int
	rise float64
}

// branchAndBound searches the nodes that wait until nothing better than what is in hand
// is left in them. Those that may hold something as good are in the queue then.
func (s *search) branchAndBound() error {
	lastDive, wait, lastSweep, swept := s.nodes, firstDive, s.nodes, s.best.upper(s.other)
	for len(s.queue) > 0 && s.queue[0].value <= float64(s.best.upper(s.other)-1) {
		if s.stopped() || s.closeEnough() {
			break
		}
		var work []*node
		for len(work) < batch && len(s.queue) > 0 {
			n := heap.Pop(&s.queue).(*node)
			if n.value > float64(s.best.reach(s.other)-1) {
				continue
			}
			work = append(work, n)
		}
		out := s.workOn(work)
		for i, o := range out {
			s.nodes++
			s.lps += o.lps
			if o.err != nil {
				return o.err
			}
			if o.best.has && (!s.best.has || better(&o.best, &s.best)) {
				s.best = o.best
			}
			if o.cut {
				s.push(work[i])
			}
			for _, c := range o.children {
				s.push(c)
			}
			for _, l := range o.learnt {
				s.known.add(l.key, l.side, l.rise)
			}
		}
		if s.nodes-lastDive >= wait && s.diveFrom(work, out) {
			lastDive, wait = s.nodes, min(2*wait, diveEvery)
		}
		if s.nodes-lastSweep >= sweepEvery && s.best.upper(s.other) < swept {
			s.sweep()
			lastSweep, swept = s.nodes, s.best.upper(s.other)
		}
		s.report()
	}
	if s.ended {
		s.openBound()
	}
	return nil
}

// closeEnough says whether what is in hand is as close to the best as was asked for.
func (s *search) closeEnough() bool {
	if s.set.Gap <= 0 || !s.best.has {
		return false
	}
	low := math.Max(float64(s.bound), math.Ceil(s.queue[0].value))
	if total := float64(s.best.total); total-low > s.set.Gap*math.Abs(total) || low >= total {
		return false
	}
	s.ended, s.stop = true, CloseEnough
	return true
}

func better(a, b *incumbent) bool {
	if a.total != b.total {
		return a.total < b.total
	}
	return a.tie.less(b.tie)
}

// openBound is the least bound of the nodes left.
func (s *search) openBound() {
	least := math.Inf(1)
	for _, n := range s.queue {
		least = math.Min(least, n.value)
	}
	if v := math.Ceil(least); v < float64(Limit) {
		s.bound = max(s.bound, int64(math.Max(v, -float64(Limit))))
	} else {
		s.bound = s.best.upper(s.other)
	}
	s.bound = min(s.bound, s.best.upper(s.other))
}

func (s *search) report() {
	if s.set.Progress == nil {
		return
	}
	p := Progress{Nodes: s.nodes, Open: len(s.queue), Has: s.best.has, Total: s.best.total, Bound: s.bound, Elapsed: time.Since(s.began)}
	if len(s.queue) > 0 {
		p.Bound = max(p.Bound, int64(math.Ceil(s.queue[0].value)))
	}
	s.set.Progress(p)
}

// workOn works on the nodes of a batch, each from the same best solution.
func (s *search) workOn(work []*node) []outcome {
	out := make([]outcome, len(work))
	var wait sync.WaitGroup
	slots := make(chan struct{}, s.set.Goroutines)
	for i, n := range work {
		wait.Add(1)
		slots <- struct{}{}
		go func() {
			defer wait.Done()
			defer func() { <-slots }()
			out[i] = s.work(n)
		}()
	}
	wait.Wait()
	return out
}

// work bounds a node, finishes it if it is small, or branches.
func (s *search) work(n *node) (o outcome) {
	in, d := s.in, n.d
	o.best = s.best
	b := in.lagrangian(d, n.y, true)
	if s.reduce(d, b, &o.best) || s.putOff(n, d, b, n.y, n.pool, &o) {
		return o
	}
	if s.halted() {
		o.cut = true
		return o
	}
	m := in.newMaster(d, n.pool.clone(), true)
	defer m.close()
	r, y, finished := s.bounded(n, d, n.y, m, &o)
	if finished {
		return o
	}
	b = in.lagrangian(d, y, true)
	if b.prune(o.best.reach(s.other)) || s.putOff(n, d, b, y, m.pool, &o) || in.enumerate(d, b, &o.best, s.other, s.picksAtMost(), s.halted) {
		return o
	}
	if s.halted() {
		o.cut = true
		return o
	}
	if kept := s.keepRow(d, b, y, &o.best); kept != nil && (s.reduce(d, kept, &o.best) || s.putOff(n, d, kept, y, m.pool, &o)) {
		return o
	}
	if r == nil || !s.branch(n, d, r, m, &o) {
		o.children = s.split(n, d, r, m.pool)
	}
	o.r = r
	return o
}

// bounded solves the relaxation of a domain and rules columns out by it, again
// while that takes columns away that the LP makes use of. finished: nothing is
// left, or an error is in o.
func (s *search) bounded(n *node, d *domain, y *duals, m *master, o *outcome) (r *relaxation, best *duals, finished bool) {
	for range 4 {
		next, done, err := s.relaxNodeCounting(d, y, m, o)
		if err != nil || done {
			if o.err = err; next != nil {
				s.putOff(n, d, next.bound, next.duals, m.pool, o)
			}
			return nil, nil, true
		}
		if next == nil {
			return r, y, false
		}
		r, y = next, next.duals
		im := s.in.newImprover(d, r.bound, y, &o.best)
		im.budget = 4000
		im.run(s.in.rounded(r, d), false)
		if s.reduce(d, r.bound, &o.best) {
			return nil, nil, true
		}
		if s.in.standing(d, r) {
			break
		}
	}
	return r, y, false
}

// putOff keeps what may hold nothing better, but something as good, until the least total
// is proven. It says whether nothing better is left.
func (s *search) putOff(n *node, d *domain, b *bound, y *duals, pool *pool, o *outcome) bool {
	if !b.prune(o.best.upper(s.other)) {
		return false
	}
	if !b.prune(o.best.reach(s.other)) {
		o.children = append(o.children, &node{d: d, y: y, pool: pool, value: math.Max(n.value, b.value-b.err), depth: n.depth + 1})
	}
	return true
}

// standing says whether all columns the LP makes use of are still possible.
func (in *instance) standing(d *domain, r *relaxation) bool {
	for c, x := range r.x {
		if x > 1e-6 && !d.alive.has(c) {
			return false
		}
	}
	return true
}

// diveFrom dives from the first node of a batch that was branched.
func (s *search) diveFrom(work []*node, out []outcome) bool {
	for i := range out {
		if r := out[i].r; r != nil && len(out[i].children) > 0 {
			m := s.in.newMaster(work[i].d, out[i].children[0].pool.clone(), true)
			s.heuristics(work[i].d, r, m, false)
			m.close()
			return true
		}
	}
	return false
}

// reduce fixes by the bound and propagates. True: nothing is left.
func (s *search) reduce(d *domain, b *bound, best *incumbent) bool {
	if b.prune(best.reach(s.other)) {
		return true
	}
	s.in.fix(d, b, best.reach(s.other))
	return !s.in.propagate(d)
}

// relaxNode solves a domain's relaxation. done: nothing of interest is in it.
func (s *search) relaxNode(d *domain, y *duals, m *master, best *incumbent) (r *relaxation, done bool, err error) {
	o := outcome{best: *best}
	r, done, err = s.relaxNodeCounting(d, y, m, &o)
	s.lps += o.lps
	return r, done, err
}

func (s *search) relaxNodeCounting(d *domain, y *duals, m *master, o *outcome) (r *relaxation, done bool, err error) {
	upper := o.best.upper(s.other)
	r, err = m.relax(d, y, upper, allRounds)
	o.lps++
	if err != nil || r == nil {
		return nil, false, err
	}
	if r.bound.prune(upper) {
		return r, true, nil
	}
	if r.slack > 1e-7 {
		empty, err := s.in.provenEmpty(d, m.pool)
		o.lps++
		return r, empty, err
	}
	return r, false, nil
}

// provenEmpty says whether the relaxation shows that a domain has no solution at
// all: without costs the bound is positive only if that is so.
func (in *instance) provenEmpty(d *domain, p *pool) (bool, error) {
	m := in.newMaster(d, p, false)
	defer m.close()
	f, err := m.relax(d, nil, 1, allRounds)
	return f != nil && f.bound.value-f.bound.err > 0, err
}

// split makes two children of a node. r may be nil.
func (s *search) split(n *node, d *domain, r *relaxation, pool *pool) []*node {
	left, right := s.in.divide(d, r)
	var out []*node
	for _, c := range []*domain{left, right} {
		if c == nil || !s.in.propagate(c) {
			continue
		}
		child := &node{d: c, y: n.y, pool: pool, value: n.value, depth: n.depth + 1}
		if r != nil {
			child.y = r.duals
			child.value = math.Max(n.value, r.bound.value-r.bound.err)
		}
		out = append(out, child)
	}
	return out
}
