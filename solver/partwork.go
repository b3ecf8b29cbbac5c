package solver

import (
	"math"
	"time"

	"brightset/solver/parallel"
)

// limits are the settings of a smaller problem on the way.
func (t *decomposition) limits(gap, fine float64) Settings {
	set := Settings{Goroutines: 1, Gap: gap, TotalAlone: true}
	if fine <= mostFine {
		set.NodeLimit = int(partNodes * fine / firstFine)
	}
	if t.set.TimeLimit > 0 {
		set.TimeLimit = max(t.set.TimeLimit-time.Since(t.began), 1) // not 0, which is no limit
	}
	return set
}

// solveAll solves every part at some prices, and says what each comes to at least. Not
// ok: some part can't be filled.
func (t *decomposition) solveAll(y *prices, d *partNode, gaps []float64,
	fine float64) (plans []*partPlan, least []int64, ok bool, err error) {
	results := make([]Result, len(t.parts))
	errs := make([]error, len(t.parts))
	parallel.All(t.set.Goroutines, len(t.parts), func(n int) {
		results[n], errs[n] = t.parts[n].Solve(t.ctx, t.change(n, y, d), t.limits(gaps[n], fine))
	})
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
func (t *decomposition) work(d *partNode) ([]*partNode, error) {
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
				if children := t.split(d, mix); children != nil {
					return children, nil
				}
				if fine > mostFine {
					return nil, t.finish(d)
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
func (t *decomposition) finish(d *partNode) error {
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
	s := &search{
		p: t.p, ch: ch, set: t.limits(0, 2*mostFine), ctx: t.ctx, began: time.Now(), memory: &memory{}, leave: t.leave,
	}
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
func (t *decomposition) gather(plans []*partPlan, y *prices, d *partNode, round int) (bool, error) {
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
func (t *decomposition) between(from, to *prices, step float64) *prices {
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
func (t *decomposition) gaps(d *partNode, least []int64, fine float64) []float64 {
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
func (t *decomposition) settled(d *partNode) bool {
	return d.value >= t.best.upper(t.beyond) || t.best.has && t.nodes == 1 && t.set.Gap > 0 && t.close(d.value)
}
