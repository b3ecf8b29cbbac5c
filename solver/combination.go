package solver

import "math"

// combination is a whole multiple of every row of a linear program of columns: of those of
// the instance, of links, minimums and needs, and of the equation of every group.
type combination struct {
	row, link, min, need, group []int64
}

func (in *instance) newCombination() *combination {
	return &combination{
		row:   make([]int64, len(in.rows)),
		link:  make([]int64, len(in.links)),
		min:   make([]int64, len(in.switches)),
		need:  make([]int64, len(in.needPairs())),
		group: make([]int64, len(in.groups)),
	}
}

// inequality is sum cols + sum switches + sum topUps <= limit: what the columns picked, the
// switches that are on and what is topped up of their minimums come to.
type inequality struct {
	cols, switches, topUps []int64
	limit                  int64
	moved                  float64 // the sum of what was taken from the limit, by absolute value
}

// less takes something from the limit. Where much is taken the limit may have overflown, which
// mostMoved tells in the end.
func (q *inequality) less(v int64) {
	q.limit -= v
	q.moved += math.Abs(float64(v))
}

func (in *instance) newInequality() *inequality {
	n := len(in.switches)
	return &inequality{cols: make([]int64, len(in.cols)), switches: make([]int64, n), topUps: make([]int64, n)}
}

// What a column, a switch or the limits of the rows come to in a combination is no more than
// mostSum, which weights tell: twice that and more is within what an int64 holds. What is
// taken from a limit, once per group and switch, may come to no more than mostMoved.
const (
	mostSum   = 0x1p60
	mostMoved = 0x1p61
)

// weights are, per row, minimum and so on, the most that one more of it comes to: its largest
// coefficient, for charges a fixed one on top of it, and its limit.
type weights struct{ row, min []float64 }

func (in *instance) weights() *weights {
	w := &weights{make([]float64, len(in.rows)), make([]float64, len(in.switches))}
	fixed := int64(0)
	for h := range in.switches {
		fixed = max(fixed, magnitude(in.switches[h].fixed))
		w.min[h] = float64(in.switches[h].minimum)
	}
	for c := range in.cols {
		for _, l := range in.cols[c].loads {
			w.min[l.Switch] = max(w.min[l.Switch], float64(l.Amount))
		}
	}
	for r := range in.rows {
		w.row[r] = in.scale[r] + math.Abs(float64(in.rows[r].limit))
		if in.rows[r].charges {
			w.row[r] += float64(fixed)
		}
	}
	return w
}

// of is no less than what gather comes to for any column, switch or minimum, and for the
// limit.
func (w *weights) of(k *combination) (sum float64) {
	for r, m := range k.row {
		sum += w.row[r] * math.Abs(float64(m))
	}
	for h, m := range k.min {
		sum += w.min[h] * math.Abs(float64(m))
	}
	for _, list := range [][]int64{k.link, k.need, k.group} {
		for _, m := range list {
			sum += math.Abs(float64(m))
		}
	}
	return sum
}

// gather adds a combination to an inequality, of the columns in d.
func (in *instance) gather(d *domain, k *combination, q *inequality) {
	for r, m := range k.row {
		q.limit += m * in.rows[r].limit
	}
	for g, span := range in.groups {
		all := k.group[g]
		q.limit += all
		for c := in.first(d, g); c < span[1]; c = d.alive.next(c+1, span[1]) {
			q.cols[c] += in.amount(&in.cols[c], k) + all
		}
	}
	for h := range in.switches {
		s := &in.switches[h]
		for _, t := range s.terms {
			q.switches[h] += k.row[t.Row] * t.Coef
		}
		for _, r := range in.paid {
			if in.pays(r, h) {
				q.switches[h] += k.row[r] * s.fixed
				q.topUps[h] += k.row[r]
			}
		}
		q.switches[h] += k.min[h] * s.minimum
		q.topUps[h] -= k.min[h]
	}
	for l, m := range k.link {
		q.switches[in.links[l].sw] -= m
	}
	if len(k.need) > 0 {
		for i, p := range in.needPairs() {
			q.switches[p.group] += k.need[i]
			q.switches[p.sw] -= k.need[i]
		}
	}
}

// amount is what a column has in a combination, aside from the equation of its group.
func (in *instance) amount(c *col, k *combination) (sum int64) {
	for _, t := range c.terms {
		sum += k.row[t.Row] * t.Coef
	}
	for _, l := range c.links {
		sum += k.link[l]
	}
	for _, l := range c.loads {
		sum -= k.min[l.Switch] * l.Amount
	}
	return sum
}
