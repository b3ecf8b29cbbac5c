package solver

import (
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// randomDuals are any multipliers, most of a size that matters.
func (in *instance) randomDuals(r *rand.Rand) *duals {
	y := in.zeroDuals()
	draw := func(list []float64, scale func(i int) float64) {
		for i := range list {
			switch r.IntN(4) {
			case 0:
			case 1:
				list[i] = scale(i) * 1e6 * r.Float64()
			default:
				list[i] = scale(i) * r.Float64()
			}
		}
	}
	draw(y.row, func(r int) float64 { return in.widest / in.scale[r] })
	draw(y.link, func(int) float64 { return in.widest })
	draw(y.min, func(int) float64 { return 1 })
	draw(y.need, func(int) float64 { return in.widest })
	return y
}

// TestBoundByTrying: no solution is below the bound of any multipliers, and nothing that
// they rule out or settle is in a solution below what they were asked about. A part of
// the columns is left out, and some switches are settled.
func TestBoundByTrying(t *testing.T) {
	judged, fixed := 0, 0
	for seed := range uint64(campaign.Cases(1400, 40_000)) {
		r := rand.New(rand.NewPCG(seed, 28))
		p := realProblem(r, 5, 4)
		if seed%3 == 0 {
			p = realBlocks(r)
		}
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(seed%2 == 0)
		d := in.fullDomain()
		for c := range in.cols {
			if r.IntN(8) == 0 {
				d.alive.drop(c)
			}
		}
		for h := range d.y {
			d.y[h] = []int8{open, open, off, on}[r.IntN(4)]
		}
		if !in.propagate(d) {
			continue
		}
		b := in.lagrangian(d, in.randomDuals(r), true)
		type solution struct {
			pick  []int
			on    []bool
			total int64
		}
		var all []solution
		least := Limit
		eachPick(p, in, func(pick []int, on []bool, total int64) {
			if in.aliveAll(d, pick) && settledSo(d, on) {
				all = append(all, solution{append([]int(nil), pick...), on, total})
				least = min(least, total)
			}
		})
		for _, s := range all {
			judged++
			if b.lower() > s.total || b.prune(s.total+1) {
				t.Errorf("seed %d: the bound is %v less %v, a solution comes to %d", seed, b.value, b.err, s.total)
			}
		}
		if len(all) == 0 {
			continue
		}
		was, upper := d.alive.count(), least+1+r.Int64N(3)*(max(1, int64(b.err)))
		if b.prune(upper) {
			t.Errorf("seed %d: cut off, though a solution comes to %d", seed, least)
		}
		in.fix(d, b, upper)
		fixed += was - d.alive.count()
		for _, s := range all {
			if s.total < upper && (!in.aliveAll(d, s.pick) || !settledSo(d, s.on)) {
				t.Errorf("seed %d: ruled out, though %d is below %d", seed, s.total, upper)
			}
		}
	}
	if judged < 1000 || fixed < 100 {
		t.Errorf("%d solutions judged, %d columns ruled out: too few to tell", judged, fixed)
	}
}

// settledSo says whether switches are on and off as a domain has settled them.
func settledSo(d *domain, isOn []bool) bool {
	for h, v := range d.y {
		if v == on && !isOn[h] || v == off && isOn[h] {
			return false
		}
	}
	return true
}

// TestPropagationGoesOn: a switch that a row leaves no room for takes along the columns that
// need it, and those the switches that only they needed.
func TestPropagationGoesOn(t *testing.T) {
	p := &Problem{
		Rows:     []Row{{Name: "room", Limit: 0}},
		Switches: []Switch{{Name: "large", Terms: []Term{{0, 1}}}, {Name: "beside"}},
		Groups: []Group{
			{Columns: []Column{{}, {Cost: -1, Needs: []int{0, 1}}}},
			{Columns: []Column{{}, {Terms: []Term{{0, -1}}}}},
		},
	}
	in := newInstance(p, &Change{Ban: []Pick{{1, 1}}}, without{})
	if d := in.fullDomain(); !in.propagate(d) || d.alive.count() != 2 || d.y[0] != off || d.y[1] != off {
		t.Errorf("%d columns left, switches %v", d.alive.count(), d.y)
	}
}

// TestPropagationByTrying: what follows in integers takes away no solution.
func TestPropagationByTrying(t *testing.T) {
	dropped := 0
	for seed := range uint64(campaign.Cases(1400, 40_000)) {
		r := rand.New(rand.NewPCG(seed, 29))
		p := realProblem(r, 5, 4)
		in := newInstance(p, &Change{}, without{})
		d := in.fullDomain()
		for h := range d.y {
			d.y[h] = []int8{open, open, off, on}[r.IntN(4)]
		}
		was := d.clone()
		left := in.propagate(d)
		dropped += was.alive.count() - d.alive.count()
		eachPick(p, in, func(pick []int, on []bool, _ int64) {
			if settledSo(was, on) && (!left || !in.aliveAll(d, pick) || !settledSo(d, on)) {
				t.Errorf("seed %d: a solution is propagated away", seed)
			}
		})
	}
	if dropped < 100 {
		t.Errorf("only %d columns were propagated away", dropped)
	}
}

// TestDominanceByTrying: of every column that another makes needless, each solution
// with it has one that is no dearer among the columns that stay.
func TestDominanceByTrying(t *testing.T) {
	needless := 0
	for seed := range uint64(campaign.Cases(1400, 40_000)) {
		r := rand.New(rand.NewPCG(seed, 30))
		p := realProblem(r, 1+r.IntN(4), 6)
		for g := range p.Groups { // columns that differ little
			for c := range p.Groups[g].Columns {
				if k := &p.Groups[g].Columns[c]; c > 0 && r.IntN(2) == 0 {
					cost := k.Cost
					*k = p.Groups[g].Columns[c-1]
					if k.Cost += r.Int64N(3); r.IntN(2) == 0 {
						k.Cost = max(k.Cost, cost)
					}
					k.Terms = append([]Term(nil), k.Terms...)
					for i := range k.Terms {
						k.Terms[i].Coef += r.Int64N(3) - 1
					}
					k.Loads = append([]Load(nil), k.Loads...)
					for i := range k.Loads {
						k.Loads[i].Amount = max(0, k.Loads[i].Amount+r.Int64N(3)-1)
					}
				}
			}
		}
		if refusal(p) != nil {
			continue
		}
		in := newInstance(p, &Change{}, without{})
		kept := in.undominated()
		needless += len(in.cols) - kept.count()
		least, leastKept := Limit+1, Limit+1
		eachPick(p, in, func(pick []int, _ []bool, total int64) {
			least = min(least, total)
			if in.aliveAll(&domain{alive: kept}, pick) {
				leastKept = min(leastKept, total)
			}
		})
		if least != leastKept {
			t.Errorf("seed %d: the least total is %d, without what is said to be needless %d", seed, least, leastKept)
		}
	}
	if needless < 300 {
		t.Errorf("only %d columns were needless", needless)
	}
}

// TestCutsByTrying: the two sides of a cut hold all solutions of a domain, none in both.
func TestCutsByTrying(t *testing.T) {
	cuts := 0
	for seed := range uint64(campaign.Cases(500, 15_000)) {
		p := realProblem(rand.New(rand.NewPCG(seed, 31)), 5, 4)
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(true)
		d := in.fullDomain()
		if !in.propagate(d) {
			continue
		}
		m := in.newMaster(d, in.newPool(), true)
		r, err := m.relax(d, nil, Limit, 3)
		m.close()
		if err != nil || r == nil {
			continue
		}
		type sides struct{ left, right *domain }
		var all []sides
		for _, k := range in.candidates(d, r) {
			left, right := in.apply(d, &k)
			all = append(all, sides{left, right})
		}
		for _, by := range []*relaxation{r, nil} {
			if left, right := in.divide(d, by); left != nil {
				all = append(all, sides{left, right})
			}
		}
		cuts += len(all)
		eachPick(p, in, func(pick []int, on []bool, _ int64) {
			for _, s := range all {
				l := in.aliveAll(s.left, pick) && settledSo(s.left, on)
				r := in.aliveAll(s.right, pick) && settledSo(s.right, on)
				if whole := in.aliveAll(d, pick) && settledSo(d, on); whole && l == r {
					t.Errorf("seed %d: a solution is on both sides of a cut, or on none", seed)
				}
			}
		})
	}
	if cuts < 100 {
		t.Errorf("only %d cuts were judged", cuts)
	}
}
