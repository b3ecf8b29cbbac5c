package solver

import (
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// solutionsIn visits every solution of a problem that an instance and a domain leave: its
// columns, in the instance's order, and the switches that are on.
func solutionsIn(p *Problem, in *instance, d *domain, visit func(cols []int, on []bool)) {
	var vol []int
	for h := range p.Switches {
		if p.Switches[h].Voluntary {
			vol = append(vol, h)
		}
	}
	cols, pick := make([]int, len(in.groups)), make([]int, len(in.groups))
	var walk func(g int)
	walk = func(g int) {
		if g < len(cols) {
			for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
				cols[g], pick[g] = c, in.cols[c].orig
				walk(g + 1)
			}
			return
		}
		for mask := range 1 << len(vol) {
			set := make([]bool, len(p.Switches))
			for i, h := range vol {
				set[h] = mask>>i&1 == 1
			}
			o := p.Evaluate(pick, set, Change{})
			fits := len(o.Broken) == 0
			for h, v := range o.On {
				fits = fits && (d.y[h] == open || (d.y[h] == on) == v)
			}
			if fits {
				visit(cols, o.On)
			}
		}
	}
	walk(0)
}

// partOf is a problem laid out, and a domain of it with some columns left out and maybe a switch
// settled: nil where nothing is possible.
func partOf(r *rand.Rand, p *Problem) (in *instance, d *domain) {
	if refusal(p) != nil {
		return nil, nil
	}
	in = newInstance(p, &Change{}, without{dominance: true})
	in.findBlocks(true)
	d = in.fullDomain()
	for c := range in.cols {
		if r.IntN(5) == 0 {
			d.alive.drop(c)
		}
	}
	if len(d.y) > 0 && r.IntN(2) == 0 {
		d.y[r.IntN(len(d.y))] = int8(r.IntN(2))
	}
	if in.someEmpty(d) || !in.propagate(d) {
		return nil, nil
	}
	return in, d
}

// TestImpliedRows: every solution of a domain keeps every row that is made for it, and the
// relaxation that it was made for does not; rows of rows, and with the rules as rows, too.
func TestImpliedRows(t *testing.T) {
	made, rounds, kept := 0, 0, 0
	for seed := range uint64(campaign.Cases(6000, 60_000)) {
		r := rand.New(rand.NewPCG(seed, 91))
		p := realProblem(r, 2+r.IntN(5), 4)
		if seed%3 == 0 {
			p = steepProblem(r, 4, 5)
		} else if seed%3 == 1 {
			p = randomProblem(r, 2+r.IntN(5), 5)
		}
		in, d := partOf(r, p)
		if d == nil {
			continue
		}
		f, lp := in.flat(d), (*flatLP)(nil)
		for round := range 5 {
			lp = f.load(d, lp, 1)
			x, err := lp.m.solve(d)
			if err != nil {
				t.Fatal(err)
			}
			if x == nil || x.slack > 1e-7 {
				break
			}
			more := lp.cutOff(d, x)
			for _, w := range more {
				if w.deep(x) <= 0 {
					t.Errorf("seed %d: the relaxation keeps the row", seed)
				}
				solutionsIn(p, in, d, func(cols []int, on []bool) {
					if sum := w.sum(cols, on); sum > w.limit {
						t.Errorf("seed %d, round %d: %v, on %v come to %d, above %d", seed, round, cols, on, sum, w.limit)
					}
					kept++
				})
			}
			if made += len(more); len(more) == 0 {
				break
			}
			if round > 0 {
				rounds++
			}
			f = f.with(lp.inUse(), more)
		}
	}
	if made < 500 || rounds < 200 || kept < 2000 {
		t.Errorf("only %d rows, %d rounds after the first, %d solutions looked at", made, rounds, kept)
	}
}

// TestRoundAnything: whatever multiples of whatever sign are added up, every solution keeps the
// row that is made of them.
func TestRoundAnything(t *testing.T) {
	made, kept := 0, 0
	for seed := range uint64(campaign.Cases(20_000, 200_000)) {
		r := rand.New(rand.NewPCG(seed, 98))
		p := realProblem(r, 2+r.IntN(3), 4)
		if seed%2 == 0 {
			p = randomProblem(r, 2+r.IntN(4), 5)
		}
		in, d := partOf(r, p)
		if d == nil {
			continue
		}
		f := in.flat(d).in
		k, weights := f.newCombination(), f.weights()
		some := func(list []int64, scale func(i int) float64) {
			for i := range list {
				if r.IntN(3) > 0 {
					list[i] = int64((2*r.Float64() - 1) * fineness / max(1, scale(i)))
				}
			}
		}
		one := func(int) float64 { return 1 }
		some(k.row, func(i int) float64 { return f.scale[i] * float64(1+r.IntN(4)) / 4 })
		some(k.min, func(h int) float64 { return weights.min[h] })
		some(k.link, one)
		some(k.need, one)
		some(k.group, one)
		if weights.of(k) > mostSum {
			continue
		}
		x := &relaxation{y: make([]float64, len(d.y))}
		for h := range x.y {
			x.y[h] = r.Float64()
		}
		w := f.round(d, k, x)
		if w == nil {
			continue
		}
		made++
		solutionsIn(p, in, d, func(cols []int, on []bool) {
			if sum := w.sum(cols, on); sum > w.limit {
				t.Errorf("seed %d: %v, on %v come to %d, above %d", seed, cols, on, sum, w.limit)
			}
			kept++
		})
	}
	if made < 1000 || kept < 5000 {
		t.Errorf("only %d rows, %d solutions looked at", made, kept)
	}
}

// sum is what a solution comes to.
func (w *implied) sum(cols []int, on []bool) (sum int64) {
	for _, c := range cols {
		sum += w.cols[c]
	}
	for _, t := range w.switches {
		if on[t.Row] {
			sum += t.Coef
		}
	}
	return sum
}
