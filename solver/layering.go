package solver

import (
	"math"
	mathbits "math/bits"
)

// layering builds picks block by block. Of the partial picks of a layer it keeps those that
// the bounds leave, and of two that leave the same open it keeps the one that costs and
// takes up no more: where few rows are tight, thousands of picks come to a few dozen.
type layering struct {
	in       *instance
	d        *domain
	best     *incumbent
	other    int64 // totals from here on are of no interest
	left     int   // steps that may still be taken
	looked   int   // partial picks looked at
	stop     func() bool
	judges   []judge
	dims     []dim
	bit      []int    // per switch, its bit in a mask; -1 where it has none
	sw       []int    // per bit, its switch
	turned   [][]Term // per bit, what its switch takes up of the dims once it is on
	foregone [][]Term // and what is lost of them once it stays off
	stages   []stage
	layers   [][]partial
}

// partial is a pick of the blocks so far. What it has taken up lies beside it, per dim.
type partial struct {
	from, choice int32 // in the layer before, and of the stage
	cost         int64
	tie          ties
	mask         uint64 // switches on
	val          [mostJudges]float64
	use          []int64
}

// dimsPerStep is how many dims one more step is counted for in looking at a partial pick.
const dimsPerStep = 40

// mostFinal is how many whole picks may be left to be looked at in the end, mostCovering how
// many partial picks another is compared with.
const (
	mostFinal    = 400
	mostCovering = 600
)

// layer looks at all picks of d that may be better than, or as good as, what is in hand.
// It says whether it got through within so many steps.
func (in *instance) layer(d *domain, b *bound, y *duals, best *incumbent, other int64, limit int,
	stop func() bool) bool {
	l := &layering{in: in, d: d, best: best, other: other, left: limit, stop: stop}
	if got := l.prepare(b, y); got != prepared {
		return got == noneLeft && !stop()
	}
	now := []partial{l.first()}
	for i := range l.stages {
		l.layers = append(l.layers, now)
		next, ok := l.expand(i, now)
		if !ok {
			return false
		}
		if now = l.undominated(next); len(now) > limit/8 {
			return false
		}
	}
	return l.offer(now) && !stop() // where time was up, what goes together may not be known
}

// upper is what a bound must not exceed.
func (l *layering) upper() float64 { return float64(l.best.reach(l.other) - 1) }

func (l *layering) first() partial {
	p := partial{use: make([]int64, len(l.dims))}
	for k := range l.judges {
		p.val[k] = l.judges[k].b.value
	}
	return p
}

// expand puts every choice of stage i behind every partial pick.
func (l *layering) expand(i int, now []partial) (next []partial, ok bool) {
	s := &l.stages[i]
	upper, step := l.upper(), 1+len(l.dims)/dimsPerStep
	use := make([]int64, len(l.dims))
	var slab []int64
	for n := range now {
		p := &now[n]
		for c := range s.choices {
			k := &s.choices[c]
			if p.val[0]+k.rc[0]+l.judges[0].table[i+1][0]-2*l.judges[0].b.err > upper {
				break // sorted by what they cost there
			}
			l.looked++
			if l.left -= step; l.left < 0 || l.looked&1023 == 0 && l.stop() {
				return nil, false
			}
			q := partial{from: int32(n), choice: int32(c), cost: p.cost + k.cost, tie: p.tie, mask: p.mask | k.mask, val: p.val}
			for t, v := range k.tie {
				q.tie[t] += v
			}
			copy(use, p.use)
			for _, t := range k.terms {
				use[t.Row] += t.Coef
			}
			for fresh := k.mask &^ p.mask; fresh != 0; fresh &= fresh - 1 {
				for _, t := range l.turned[mathbits.TrailingZeros64(fresh)] {
					use[t.Row] += t.Coef
				}
			}
			if !l.judge(i, p, k, &q, use, upper) {
				continue
			}
			if len(slab) < len(use) {
				slab = make([]int64, 128*len(use))
			}
			q.use, slab = slab[:len(use):len(use)], slab[len(use):]
			copy(q.use, use)
			next = append(next, q)
		}
	}
	return next, true
}

// offer looks at what the last layer holds.
func (l *layering) offer(last []partial) bool {
	if len(last) > mostFinal {
		return false
	}
	t := l.in.newTally()
	for n := range last {
		p := &last[n]
		if p.val[0]-2*l.judges[0].b.err > l.upper() {
			continue
		}
		for i := len(l.stages) - 1; i >= 0; i-- {
			for _, c := range l.stages[i].choices[p.choice].cols {
				t.set(l.in.cols[c].group, c)
			}
			p = &l.layers[i][p.from]
		}
		if _, exact, _ := l.best.offerWithin(t, l.d.y, mostSettings); !exact {
			return false
		}
	}
	return true
}

// layerSteps is how many steps may be taken in a node: few at first, when the search may be over soon
// anyhow, and more in one that goes on for long.
func (s *search) layerSteps() int { return min(4000+1000*s.nodes, 30_000) + 300*s.nodes }

// layered goes through a node block by block, where that is likely to come to an end.
func (s *search) layered(d *domain, b *bound, y *duals, o *outcome) bool {
	if s.leave.layers || s.leave.cuts {
		return false
	}
	size := s.in.sizeOf(d)
	if s.large > 0 && size > s.large {
		return false
	}
	o.size = size
	o.through = s.in.layer(d, b, y, &o.best, s.other, s.layerSteps(), s.halted)
	return o.through
}

// sizeOf is how many picks a domain has, by their logarithm to the base of 2.
func (in *instance) sizeOf(d *domain) float64 {
	sum := 0.0
	for g := range in.groups {
		sum += math.Log2(float64(in.count(d, g, 1<<30)))
	}
	return sum
}

// sized learns how large a node may be to be gone through: by how much larger the next may
// be after one that was, and smaller after one that was not.
func (s *search) sized(o *outcome) {
	const larger, smaller = 3, 2
	switch {
	case o.size == 0:
	case o.through:
		s.large = max(s.large, o.size+larger)
	case s.large == 0 || o.size-smaller < s.large:
		s.large = max(1, o.size-smaller)
	}
}
