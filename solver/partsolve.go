package solver

import (
	"container/heap"
	"context"
	"math"
	"sync"
	"time"
)

// partNode is a set of solutions: what of shared switches and columns is ruled out.
type partNode struct {
	sw     []int8    // per shared switch: off, on or open
	ban    [][]Pick  // per part
	most   [][]int64 // per part and common row, what it may use; nil: the row's limit
	value  int64     // nothing in it is below
	prices *prices   // to begin with
	seq    int
}

func (d *partNode) clone() *partNode {
	out := &partNode{value: d.value, prices: d.prices, sw: append([]int8(nil), d.sw...), most: make([][]int64, len(d.most))}
	for _, b := range d.ban {
		out.ban = append(out.ban, b[:len(b):len(b)])
	}
	return out
}

// partQueue has the node with the lowest bound first.
type partQueue []*partNode

func (q partQueue) Len() int { return len(q) }
func (q partQueue) Less(i, j int) bool {
	if q[i].value != q[j].value {
		return q[i].value < q[j].value
	}
	return q[i].seq < q[j].seq
}
func (q partQueue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *partQueue) Push(x any)   { *q = append(*q, x.(*partNode)) }
func (q *partQueue) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}

// limits are the settings of a smaller problem on the way.
func (t *parted) limits(gap, fine float64) Settings {
	set := Settings{Goroutines: 1, Gap: gap}
	if fine <= mostFine {
		set.NodeLimit = int(partNodes * fine / firstFine)
	}
	if t.set.TimeLimit > 0 {
		set.TimeLimit = max(t.set.TimeLimit-time.Since(t.began), 1) // not 0, which is no limit
	}
	return set
}

// halted says whether a limit has been reached.
func (t *parted) halted() bool {
	switch {
	case t.ctx.Err() == context.DeadlineExceeded:
		t.stop = TimeLimit
	case t.ctx.Err() != nil:
		t.stop = Cancelled
	case t.set.TimeLimit > 0 && time.Since(t.began) >= t.set.TimeLimit:
		t.stop = TimeLimit
	case t.set.NodeLimit > 0 && t.nodes >= t.set.NodeLimit:
		t.stop = NodeLimit
	default:
		return false
	}
	return true
}

// run solves the problem part by part: prices on what is common, each part's best at
// those prices, the best combination of what was found, and cuts where the mixture of
// plans is undecided about something common.
func (t *parted) run(start [][]int) (Result, error) {
	t.pool = make([][]*partPlan, len(t.parts))
	for h := range t.p.Switches {
		t.dear = math.Max(t.dear, float64(magnitude(t.p.Switches[h].Fixed)+t.p.Switches[h].Minimum))
	}
	for g := range t.p.Groups {
		most := int64(0)
		for c := range t.p.Groups[g].Columns {
			most = max(most, magnitude(t.p.Groups[g].Columns[c].Cost))
		}
		t.dear += 2 * float64(most)
	}
	t.beyond = 1
	for g := range t.p.Groups {
		most := -Limit
		for c := range t.p.Groups[g].Columns {
			most = max(most, t.p.Groups[g].Columns[c].Cost)
		}
		t.beyond += most
	}
	for h := range t.p.Switches {
		t.beyond += max(0, t.p.Switches[h].Fixed) + t.p.Switches[h].Minimum
	}
	for _, pick := range start {
		if len(pick) == len(t.p.Groups) {
			t.consider(pick, nil)
			t.adopt(pick)
		}
	}
	root := &partNode{sw: make([]int8, len(t.shared)), ban: make([][]Pick, len(t.parts)), most: make([][]int64, len(t.parts)), value: -Limit}
	for k := range root.sw {
		root.sw[k] = open
	}
	var err error
	if root.prices, err = t.firstPrices(); err != nil {
		return Result{}, err
	}
	queue, seq := partQueue{root}, 0
	var undivided partQueue // nodes that nothing more can be said of
	bound := int64(-Limit)
	for len(queue) > 0 {
		if t.best.has && t.close(max(bound, queue[0].value)) {
			t.stop = CloseEnough
			break
		}
		if t.halted() {
			break
		}
		d := heap.Pop(&queue).(*partNode)
		if d.value >= t.best.upper(t.beyond) {
			continue
		}
		t.nodes++
		children, err := t.work(d)
		if err != nil {
			return Result{}, err
		}
		if len(children) == 0 && d.value < t.best.upper(t.beyond) {
			if t.halted() || t.nodes == 1 && t.settled(d) {
				heap.Push(&queue, d) // stopped in the middle of it
				if t.stop == Finished {
					t.stop = CloseEnough
				}
				break
			}
			undivided = append(undivided, d)
			t.stop = CloseEnough
		}
		for _, c := range children {
			seq++
			c.seq = seq
			heap.Push(&queue, c)
		}
		if len(queue) > 0 {
			bound = max(bound, queue[0].value)
		}
		t.report(queue)
	}
	return t.result(append(queue, undivided...))
}

// trifling is how many linear programs are solved for the whole proof even where a gap
// would do: so much is always worth it. Tests set it.
var trifling = 1500

// close says whether the best is as close to a bound as the settings ask.
func (t *parted) close(bound int64) bool {
	return t.lps >= trifling && bound < t.best.total && float64(t.best.total-bound) <= t.set.Gap*math.Abs(float64(t.best.total))
}

func (t *parted) report(queue partQueue) {
	if t.set.Progress == nil {
		return
	}
	p := Progress{Nodes: t.nodes, Open: len(queue), Has: t.best.has, Total: t.best.total, Bound: t.best.upper(Limit), Elapsed: time.Since(t.began)}
	if len(queue) > 0 {
		p.Bound = min(p.Bound, queue[0].value)
	}
	t.set.Progress(p)
}

func (t *parted) result(queue partQueue) (Result, error) {
	bound := t.best.upper(t.beyond)
	for _, d := range queue {
		bound = min(bound, d.value)
	}
	r := Result{Nodes: t.nodes, LPs: t.lps, Time: time.Since(t.began), Bound: bound, Status: Infeasible}
	if t.best.has {
		o := t.p.Evaluate(t.best.pick, t.best.vol, Change{})
		r.Has, r.Pick, r.On, r.Charge, r.Total = true, t.best.pick, o.On, o.Charge, o.Total
		r.Status = Optimal
	}
	if bound < t.best.upper(t.beyond) {
		r.Status, r.Stop = Stopped, t.stop
	}
	return r, nil
}

// adopt takes the plans that make up a full pick.
func (t *parted) adopt(pick []int) {
	for n, q := range t.parts {
		res := &Result{Pick: pick[q.first : q.first+len(q.prob.Groups)], On: make([]bool, len(q.prob.Switches))}
		if o := q.prob.Evaluate(res.Pick, res.On, Change{}); len(o.Broken) == 0 {
			t.add(n, t.plan(n, res))
		}
	}
}

// solveAll solves every part at some prices. What a part comes to at least is -1 less
// than nothing if it can't be filled: ok is false then.
func (t *parted) solveAll(y *prices, d *partNode, gaps []float64, fine float64) (plans []*partPlan, least []int64, ok bool, err error) {
	results := make([]Result, len(t.parts))
	errs := make([]error, len(t.parts))
	var wait sync.WaitGroup
	gate := make(chan struct{}, t.set.Goroutines)
	for n := range t.parts {
		wait.Add(1)
		gate <- struct{}{}
		go func() {
			defer wait.Done()
			defer func() { <-gate }()
			results[n], errs[n] = t.parts[n].Solve(t.ctx, t.change(n, y, d), t.limits(gaps[n], fine))
		}()
	}
	wait.Wait()
	plans, least = make([]*partPlan, len(t.parts)), make([]int64, len(t.parts))
	for n := range results {
		if errs[n] != nil {
			return nil, nil, false, errs[n]
		}
		if results[n].Status == Infeasible {
			return nil, nil, false, nil
		}
		t.lps += results[n].LPs
		least[n] = results[n].Bound
		if results[n].Has {
			plans[n] = t.plan(n, &results[n])
			for _, f := range t.parts[n].memory.trail { // of use elsewhere in the mixture
				t.add(n, t.plan(n, &Result{Pick: f.pick, On: f.vol}))
			}
		}
	}
	return plans, least, true, nil
}

// mostRounds bounds how often a node puts new prices on.
const mostRounds = 40

// partNodes bounds the search in one part at one set of prices, as long as there is
// something else to try.
const partNodes = 24

// work bounds a node and cuts it in two if that does not settle it. No children: nothing
// of interest is left in it, or time is up.
func (t *parted) work(d *partNode) ([]*partNode, error) {
	y, best, step, fine := d.prices, d.prices, firstStep, firstFine
	var least []int64
	for round := range mostRounds {
		plans, now, ok, err := t.solveAll(y, d, t.gaps(d, least, fine), fine)
		if err != nil {
			return nil, err
		}
		if !ok {
			d.value = Limit
			return nil, nil
		}
		least = now
		if v := t.bound(y, d, least); v > d.value || round == 0 {
			best, d.value = y, max(d.value, v)
			step = min(1, 1.5*step)
		} else {
			step = max(leastStep, 0.75*step)
		}
		fresh, err := t.gather(plans, y, d, round)
		if err != nil || t.settled(d) || t.halted() {
			return nil, err
		}
		mix, err := t.mix(d)
		if err != nil || mix == nil {
			return nil, err
		}
		if !fresh && round > 0 || float64(d.value) > mix.value-1e-6 || round == mostRounds-1 {
			if step >= 1 || float64(d.value) > mix.value-1e-6 || round == mostRounds-1 {
				if children := t.split(d, mix); children != nil || fine > mostFine {
					return children, t.finish(d, children)
				}
			}
			step, fine = min(1, 2*step), 4*fine
		}
		y = t.between(best, mix.prices, step)
	}
	return nil, nil
}

// finish searches a node that can't be cut any more as a whole: there is next to nothing
// left of it.
func (t *parted) finish(d *partNode, children []*partNode) error {
	if children != nil {
		return nil
	}
	ch := Change{}
	for n, q := range t.parts {
		for _, b := range d.ban[n] {
			ch.Ban = append(ch.Ban, Pick{q.first + b.Group, b.Column})
		}
		for k := range t.shared {
			if d.sw[k] == off {
				for _, b := range q.needs[k] {
					ch.Ban = append(ch.Ban, Pick{q.first + b.Group, b.Column})
				}
			}
		}
	}
	s := &search{p: t.p, ch: ch, set: t.limits(0, 2*mostFine), ctx: t.ctx, began: time.Now(), memory: &memory{}}
	if err := s.run(); err != nil {
		return err
	}
	res, err := s.result()
	if err != nil {
		return err
	}
	if res.Has {
		t.consider(res.Pick, s.best.vol)
	}
	if d.value = max(d.value, res.Bound); res.Status == Infeasible {
		d.value = Limit
	}
	return nil
}

// gather keeps the plans found, and looks for better ways to put plans together. It says
// whether some plan is new.
func (t *parted) gather(plans []*partPlan, y *prices, d *partNode, round int) (bool, error) {
	fresh := false
	for n, k := range plans {
		fresh = k != nil && t.add(n, k) || fresh
	}
	if round == 0 && t.nodes == 1 {
		if err := t.oneByOne(plans, y, d); err != nil {
			return false, err
		}
	}
	if fresh || round == 0 {
		if err := t.combine(y); err != nil {
			return false, err
		}
	}
	t.report(partQueue{d})
	return fresh, nil
}

// firstStep is how far prices go at first from the best so far towards those of the
// mixture. Few plans make wild prices: going all the way would take far more rounds.
// It gets longer where that raises the bound, and shorter where not.
const (
	firstStep = 0.2
	leastStep = 0.06
)

// between are prices a step of the way from one set to another.
func (t *parted) between(from, to *prices, step float64) *prices {
	if step >= 1 {
		return to
	}
	part := func(a, b int64) int64 { return a + int64(math.Round(step*float64(b-a))) }
	y := t.zeroPrices()
	for k := range y.row {
		y.row[k] = part(from.row[k], to.row[k])
	}
	for n := range y.sw {
		for k := range y.sw[n] {
			y.sw[n][k] = part(from.sw[n][k], to.sw[n][k])
		}
	}
	for k := range y.worth {
		y.worth[k] = from.worth[k] + step*(to.worth[k]-from.worth[k])
	}
	return y
}

// firstFine is into how many the open gap is divided among the parts at first; each part
// is solved that finely. Where it leads no further it is divided more finely; beyond
// mostFine the parts are solved to the end.
const (
	firstFine = 10.0
	mostFine  = 256
)

// gaps are how finely the parts are to be solved, given what they came to at least last.
func (t *parted) gaps(d *partNode, least []int64, fine float64) []float64 {
	out := make([]float64, len(t.parts))
	if least == nil {
		for n := range out {
			out[n] = refillGap
		}
		return out
	}
	open := 0.4 * shares // together less than a unit, which rounding up makes good
	if t.best.has && fine <= mostFine {
		open = max(open, float64(t.best.total-d.value)*shares/fine)
	}
	open /= float64(len(t.parts))
	for n, v := range least {
		if v != 0 {
			out[n] = open / math.Abs(float64(v))
		}
	}
	return out
}

// settled says whether a node holds nothing better than what is in hand, or nothing that
// is better by enough.
func (t *parted) settled(d *partNode) bool {
	return d.value >= t.best.upper(t.beyond) || t.best.has && t.nodes == 1 && t.set.Gap > 0 && t.close(d.value)
}
