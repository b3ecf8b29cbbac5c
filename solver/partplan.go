package solver

import (
	"cmp"
	"slices"
)

// partPlan is one way to fill all groups of a part, as far as the whole is concerned.
type partPlan struct {
	pick  []int // column per group of the part
	vol   []bool
	cost  int64  // in units, shared switches aside
	use   []Term // of common rows, by their place among them, ascending
	on    []bool // per shared switch
	load  []int64
	price float64 // reduced cost at the latest prices
}

// plan works out what an answer of a part means to the whole.
func (t *decomposition) plan(n int, res *Result) *partPlan {
	q := t.parts[n]
	out := &partPlan{pick: res.Pick, vol: res.On, on: make([]bool, len(t.shared)), load: make([]int64, len(t.shared))}
	o := q.prob.Evaluate(res.Pick, res.On, Change{})
	out.cost = o.Total / shares
	for k, h := range q.swAt {
		out.on[k] = h >= 0 && o.On[h]
	}
	sum := map[int]int64{}
	for g, c := range res.Pick {
		k := &t.p.Groups[q.first+g].Columns[c]
		for _, m := range k.Terms {
			if r, is := slices.BinarySearch(t.rows, m.Row); is {
				sum[r] += m.Coef
			}
		}
		for _, l := range k.Loads {
			if s, is := slices.BinarySearch(t.shared, l.Switch); is {
				out.load[s] += l.Amount
			}
		}
	}
	for _, s := range q.priced {
		if o.On[s.sw] {
			for _, m := range s.terms {
				sum[m.Row] += m.Coef
			}
		}
	}
	for r, v := range sum {
		if v != 0 {
			out.use = append(out.use, Term{r, v})
		}
	}
	slices.SortFunc(out.use, func(a, b Term) int { return cmp.Compare(a.Row, b.Row) })
	return out
}

// priceOf is what a plan costs its part at some prices, in units.
func (t *decomposition) priceOf(n int, k *partPlan, y *prices) float64 {
	sum := float64(k.cost)
	for _, m := range k.use {
		sum += float64(y.row[m.Row]*m.Coef) / shares
	}
	for s, on := range k.on {
		if on {
			sum += float64(y.sw[n][s])/shares - y.worth[s]*float64(k.load[s])
		}
	}
	return sum
}

// within says whether a node leaves a plan possible.
func (k *partPlan) within(n int, d *partNode) bool {
	for s, on := range k.on {
		if on && d.sw[s] == off {
			return false
		}
	}
	for _, b := range d.ban[n] {
		if k.pick[b.Group] == b.Column {
			return false
		}
	}
	return true
}

// offer puts one plan of every part together and keeps it if it is the best so far.
func (t *decomposition) offer(plans []*partPlan) bool {
	pick := make([]int, 0, len(t.p.Groups))
	vol := make([]bool, len(t.p.Switches))
	for n, k := range plans {
		if k == nil {
			return false
		}
		pick = append(pick, k.pick...)
		for at, h := range t.parts[n].allSw {
			vol[h] = vol[h] || t.p.Switches[h].Voluntary && k.vol[at]
		}
	}
	return t.consider(pick, vol)
}

// consider keeps a full pick if it breaks nothing and is better than the best.
func (t *decomposition) consider(pick []int, vol []bool) bool {
	o := t.p.Evaluate(pick, vol, Change{})
	if len(o.Broken) > 0 {
		return false
	}
	now := incumbent{has: true, total: o.Total, pick: pick, vol: vol}
	for g, c := range pick {
		k := &t.p.Groups[g].Columns[c]
		now.tie[0] += k.Tie[0]
		now.tie[1] += k.Tie[1]
	}
	if t.best.has && !better(&now, &t.best) {
		return false
	}
	t.best = now
	return true
}

// add keeps a plan that is new.
func (t *decomposition) add(n int, k *partPlan) bool {
	for _, have := range t.pool[n] {
		if slices.Equal(have.pick, k.pick) && slices.Equal(have.vol, k.vol) {
			return false
		}
	}
	t.pool[n] = append(t.pool[n], k)
	return true
}

// mostPlans is how many plans of a part the whole picks from.
const mostPlans = 25

// combine finds the best way to put plans found so far together.
func (t *decomposition) combine(y *prices) error {
	q := &Problem{}
	lists := make([][]*partPlan, len(t.parts))
	for n, pool := range t.pool {
		for _, k := range pool {
			k.price = t.priceOf(n, k, y)
		}
		lists[n] = slices.Clone(pool)
		slices.SortStableFunc(lists[n], func(a, b *partPlan) int { return cmp.Compare(a.price, b.price) })
		lists[n] = lists[n][:min(len(lists[n]), mostPlans)]
	}
	for _, r := range t.rows {
		q.Rows = append(q.Rows, Row{Name: t.p.Rows[r].Name, Limit: t.p.Rows[r].Limit})
	}
	for k, h := range t.shared {
		s := &t.p.Switches[h]
		q.Switches = append(q.Switches, Switch{Name: s.Name, Fixed: s.Fixed, Minimum: s.Minimum, Needs: t.needsOf[k]})
	}
	for _, list := range lists {
		g := Group{}
		for _, k := range list {
			c := Column{Cost: k.cost, Terms: k.use}
			for s, on := range k.on {
				if on {
					c.Needs = append(c.Needs, s)
					if k.load[s] > 0 {
						c.Loads = append(c.Loads, Load{s, k.load[s]})
					}
				}
			}
			g.Columns = append(g.Columns, c)
		}
		q.Groups = append(q.Groups, g)
	}
	ch := Change{}
	if t.best.has {
		ch.Below = &t.best.total
	}
	s, err := New(q)
	if err != nil {
		return err
	}
	set := t.limits(0, firstFine)
	set.NodeLimit, set.Gap = combineNodes, refillGap/10
	res, err := s.Solve(t.ctx, ch, set)
	if err != nil || !res.Has {
		return err
	}
	plans := make([]*partPlan, len(lists))
	for n, c := range res.Pick {
		plans[n] = lists[n][c]
	}
	t.offer(plans)
	return nil
}

// combineNodes bounds the search for the best combination.
const combineNodes = 60
