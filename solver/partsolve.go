package solver

import (
	"container/heap"
	"math"
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
	out := &partNode{
		value:  d.value,
		prices: d.prices,
		sw:     append([]int8(nil), d.sw...),
		most:   make([][]int64, len(d.most)),
	}
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

// halted says whether a limit has been reached.
func (t *decomposition) halted() bool {
	stop := t.set.reached(t.ctx, t.began, t.nodes)
	if stop != Finished {
		t.stop = stop
	}
	return stop != Finished
}

// run solves the problem part by part: prices on what is common, each part's best at
// those prices, the best combination of what was found, and cuts where the mixture of
// plans is undecided about something common.
func (t *decomposition) run(start [][]int) (Result, error) {
	root, err := t.begin(start)
	if err != nil {
		return Result{}, err
	}
	queue, seq := partQueue{root}, 0
	var undivided partQueue // nodes that nothing more can be said of
	for len(queue) > 0 && !t.halted() && !t.enough(queue, undivided) {
		d := heap.Pop(&queue).(*partNode)
		if d.value >= t.best.upper(t.beyond) {
			continue
		}
		t.nodes++
		children, err := t.work(d)
		if err != nil {
			return Result{}, err
		}
		for _, c := range children {
			seq++
			c.seq = seq
			heap.Push(&queue, c)
		}
		switch {
		case len(children) > 0 || d.value >= t.best.upper(t.beyond):
		case t.halted() || t.nodes == 1 && t.settled(d):
			heap.Push(&queue, d) // stopped in the middle of it
			if t.stop == Finished {
				t.stop = CloseEnough
			}
			return t.result(append(queue, undivided...))
		default:
			undivided = append(undivided, d)
			t.stop = CloseEnough
		}
		t.report(queue)
	}
	return t.result(append(queue, undivided...))
}

// begin looks at where to start from and gives the node that holds everything.
func (t *decomposition) begin(start [][]int) (*partNode, error) {
	t.pool = make([][]*partPlan, len(t.parts))
	leave := t.leave
	leave.rowLinks = true // the first prices need no sharper relaxation of all parts at once
	in := newInstance(t.p, &Change{}, leave)
	t.beyond = in.beyond()
	t.dear = 2 * float64(t.beyond)
	for g := range t.p.Groups {
		most := int64(0)
		for c := range t.p.Groups[g].Columns {
			most = max(most, magnitude(t.p.Groups[g].Columns[c].Cost))
		}
		t.dear += 2 * float64(most)
	}
	t.tryStarts(in, start)
	root := &partNode{
		sw:    make([]int8, len(t.shared)),
		ban:   make([][]Pick, len(t.parts)),
		most:  make([][]int64, len(t.parts)),
		value: -Limit,
	}
	for k := range root.sw {
		root.sw[k] = open
	}
	var err error
	root.prices, err = t.firstPrices(in)
	return root, err
}

// tryStarts takes the picks to try first, and what they mean to the parts.
func (t *decomposition) tryStarts(in *instance, start [][]int) {
	s := &search{p: t.p, ch: Change{Start: start}, in: in, other: t.beyond, memory: &memory{}}
	s.tryStarts(in.fullDomain())
	t.best = s.best
	for _, pick := range start {
		if len(pick) == len(t.p.Groups) {
			t.consider(pick, nil)
			t.adopt(pick, nil)
		}
	}
	if t.best.has {
		t.adopt(t.best.pick, t.best.vol)
	}
}

// enough says whether the best is close enough to all that is left.
func (t *decomposition) enough(queue, undivided partQueue) bool {
	if !t.best.has {
		return false
	}
	low := queue[0].value
	for _, d := range undivided {
		low = min(low, d.value)
	}
	if !t.close(low) {
		return false
	}
	t.stop = CloseEnough
	return true
}

// trifling is how many linear programs are solved for the whole proof even where a gap
// would do: so much is always worth it. Tests set it.
var trifling = 1500

// close says whether the best is as close to a bound as the settings ask.
func (t *decomposition) close(bound int64) bool {
	return t.lps >= trifling && bound < t.best.total &&
		float64(t.best.total-bound) <= t.set.Gap*math.Abs(float64(t.best.total))
}

func (t *decomposition) report(queue partQueue) {
	if t.set.Progress == nil {
		return
	}
	p := Progress{
		Nodes:   t.nodes,
		Open:    len(queue),
		Has:     t.best.has,
		Total:   t.best.total,
		Bound:   t.best.upper(Limit),
		Elapsed: time.Since(t.began),
	}
	if len(queue) > 0 {
		p.Bound = min(p.Bound, queue[0].value)
	}
	t.set.Progress(p)
}

func (t *decomposition) result(queue partQueue) (Result, error) {
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

// adopt takes the plans that make up a full pick, with some voluntary switches on.
func (t *decomposition) adopt(pick []int, vol []bool) {
	for n, q := range t.parts {
		res := &Result{Pick: pick[q.first : q.first+len(q.prob.Groups)], On: make([]bool, len(q.prob.Switches))}
		for at, h := range q.allSw {
			res.On[at] = h < len(vol) && vol[h]
		}
		if o := q.prob.Evaluate(res.Pick, res.On, Change{}); len(o.Broken) == 0 {
			t.add(n, t.plan(n, res))
		}
	}
}
