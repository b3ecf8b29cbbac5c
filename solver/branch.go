package solver

import (
	"container/heap"
	"math"
	"time"

	"brightset/solver/parallel"
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
	size     float64     // of the node, where it was tried to go through it block by block; else 0
	through  bool        // and that came to an end
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
			s.sized(&o)
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
			for i := range o.learnt {
				s.known.add(&o.learnt[i])
			}
		}
		if s.nodes-lastDive >= wait && s.diveFrom(work, out) {
			lastDive, wait = s.nodes, min(2*wait, diveEvery)
		}
		if s.nodes-lastSweep >= sweepEvery && s.best.upper(s.other) < swept {
			s.sweep()
			lastSweep, swept = s.nodes, s.best.upper(s.other)
		}
		if s.lengthy() {
			s.startOver()
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
	p := Progress{
		Nodes:   s.nodes,
		Open:    len(s.queue),
		Has:     s.best.has,
		Total:   s.best.total,
		Bound:   s.bound,
		Elapsed: time.Since(s.began),
	}
	if len(s.queue) > 0 {
		p.Bound = max(p.Bound, int64(math.Ceil(s.queue[0].value)))
	}
	s.set.Progress(p)
}

// workOn works on the nodes of a batch, each from the same best solution.
func (s *search) workOn(work []*node) []outcome {
	out := make([]outcome, len(work))
	parallel.All(s.set.Goroutines, len(work), func(i int) { out[i] = s.work(work[i]) })
	return out
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
