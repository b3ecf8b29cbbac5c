package solver

import (
	"math"
	"time"
)

// firstPrices are those of the linear relaxation of the whole, in which a column of a
// part is as divisible as the part: near enough to begin with.
func (t *decomposition) firstPrices(in *instance) (*prices, error) {
	y := t.zeroPrices()
	in.halt = func() bool {
		return t.ctx.Err() != nil || t.set.TimeLimit > 0 && time.Since(t.began) > t.set.TimeLimit/4
	}
	d := in.fullDomain()
	if !in.propagate(d) {
		return y, nil
	}
	in = in.keep(d.alive)
	in.findBlocks(false)
	m := in.newMaster(in.fullDomain(), in.newPool(), true)
	defer m.close()
	r, err := m.relax(in.fullDomain(), nil, Limit, allRounds)
	t.lps++
	if err != nil || r == nil {
		return y, err
	}
	of := t.p.partOf()
	at := make(map[int]int, len(t.shared))
	for k, h := range t.shared {
		at[h] = k
		y.worth[k] = min(1, r.duals.min[h])
	}
	for i := range in.rows {
		for k, orig := range t.rows {
			if in.rows[i].orig == orig {
				y.row[k] = whole(r.duals.row[i]*shares, t.caps[k])
			}
		}
	}
	for l, k := range in.links {
		if s, is := at[k.sw]; is && k.group < len(of) {
			sw := &t.p.Switches[k.sw]
			price := &y.sw[of[k.group]][s]
			*price += whole(r.duals.link[l]*shares, (sw.Fixed+sw.Minimum)*shares-*price)
		}
	}
	return y, nil
}

// oneByOne turns the parts' best plans, which may want the same things, into a solution:
// a part whose plan is not possible any more, after those before it, is filled anew
// within what they leave. Then each part is filled anew given all others, at what it
// really costs, as long as that helps.
func (t *decomposition) oneByOne(plans []*partPlan, y *prices, d *partNode) error {
	chosen := make([]*partPlan, len(t.parts))
	for n := range t.parts {
		if plans[n] != nil && t.fits(chosen, n, plans[n]) {
			chosen[n] = plans[n]
			continue
		}
		k, err := t.refill(chosen, n, y, d)
		if err != nil || k == nil {
			return err
		}
		chosen[n] = k
	}
	t.offer(chosen)
	for range mostPasses {
		was := t.best.upper(t.beyond)
		if err := t.refillAll(chosen, d); err != nil {
			return err
		}
		if now := t.best.upper(t.beyond); t.halted() || float64(was-now) < refillGap/2*math.Abs(float64(now)) {
			return nil
		}
	}
	return nil
}

// mostPasses bounds how often all parts are filled anew.
const mostPasses = 3

// refillAll fills every part anew in turn, given all others.
func (t *decomposition) refillAll(chosen []*partPlan, d *partNode) error {
	for n := range t.parts {
		if t.halted() {
			return nil
		}
		k, err := t.refill(chosen, n, t.zeroPrices(), d)
		if err != nil {
			return err
		}
		if k == nil {
			continue
		}
		was := chosen[n]
		chosen[n] = k
		if !t.offer(chosen) {
			chosen[n] = was
		}
	}
	return nil
}

// left is what the others' plans leave of the common rows.
func (t *decomposition) left(chosen []*partPlan, n int) []int64 {
	left := make([]int64, len(t.rows))
	for k, r := range t.rows {
		left[k] = t.p.Rows[r].Limit
	}
	for m, k := range chosen {
		if m == n || k == nil {
			continue
		}
		for _, u := range k.use {
			left[u.Row] -= u.Coef
		}
	}
	return left
}

func (t *decomposition) fits(chosen []*partPlan, n int, k *partPlan) bool {
	left := t.left(chosen, n)
	for _, u := range k.use {
		if u.Coef > left[u.Row] {
			return false
		}
	}
	return true
}

// refillGap is how finely a part is filled anew, refillNodes bounds the search for it.
const (
	refillGap   = 0.001
	refillNodes = 60
)

// refill fills one part within what the others leave. What they have turned on costs
// nothing more, and loads count where they still fill a minimum.
func (t *decomposition) refill(chosen []*partPlan, n int, y *prices, d *partNode) (*partPlan, error) {
	in := d.clone()
	in.most[n] = t.left(chosen, n)
	now := *y
	now.sw = append([][]int64(nil), y.sw...)
	now.sw[n] = make([]int64, len(t.shared))
	now.worth = append([]float64(nil), y.worth...)
	for k, h := range t.shared {
		s := &t.p.Switches[h]
		on, load := false, int64(0)
		for m, c := range chosen {
			if m != n && c != nil && c.on[k] {
				on = true
				load += c.load[k]
			}
		}
		now.worth[k] = 0
		if own := chosen[n]; load < s.Minimum && (own == nil || load+own.load[k] <= s.Minimum) {
			now.worth[k] = 1
		}
		if !on {
			now.sw[n][k] = s.Fixed*shares + portion(now.worth[k], s.Minimum*shares, 0)
		}
	}
	set := t.limits(refillGap, firstFine)
	set.NodeLimit = refillNodes
	res, err := t.parts[n].Solve(t.ctx, t.change(n, &now, in), set)
	if err != nil || !res.Has {
		return nil, err
	}
	k := t.plan(n, &res)
	t.add(n, k)
	return k, nil
}
