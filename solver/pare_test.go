package solver

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// TestPare: rows counted from the least, in their unit, are kept by the same solutions.
func TestPare(t *testing.T) {
	coarse, differ := 0, 0
	for seed := range uint64(600) {
		r := rand.New(rand.NewPCG(seed, 96))
		p := &Problem{Rows: []Row{{Sense: Sense(r.IntN(2))}}, Switches: []Switch{{Fixed: 5}, {Voluntary: true}}}
		unit, base := 1+r.Int64N(12), r.Int64N(100)
		p.Switches[r.IntN(2)].Terms = []Term{{0, unit * (1 + r.Int64N(2)) / (1 + r.Int64N(2))}}
		sum := int64(0)
		for range 4 {
			var g Group
			for range 3 {
				g.Columns = append(g.Columns, Column{Cost: r.Int64N(9), Terms: []Term{{0, base + unit*r.Int64N(9)}}})
			}
			g.Columns[r.IntN(3)].Needs = []int{0}
			sum += g.Columns[0].Terms[0].Coef
			p.Groups = append(p.Groups, g)
		}
		p.Rows[0].Limit = sum + r.Int64N(2*unit)
		q := *p
		q.Rows = []Row{{Limit: Limit}}
		in := newInstance(p, &Change{}, without{dominance: true})
		if len(in.rows) == 0 {
			continue
		}
		d, pared := in.fullDomain(), *in
		pared.cols = append([]col(nil), in.cols...)
		pared.rows, pared.scale = append([]row(nil), in.rows...), append([]float64(nil), in.scale...)
		pared.pare(d)
		if _, _, u := in.aboveLeast(d, 0); in.pareUnit(0, u) > 1 {
			coarse++
		}
		solutionsIn(&q, in, d, func(cols []int, on []bool) {
			was, is := in.rowSum(cols, on) <= in.rows[0].limit, pared.rowSum(cols, on) <= pared.rows[0].limit
			if was != is {
				t.Errorf("seed %d: %v, on %v keep the row: %v, pared: %v", seed, cols, on, was, is)
			}
			if !was {
				differ++
			}
		})
	}
	if coarse < 200 || differ < 1000 {
		t.Errorf("only %d in larger units, %d did not keep the row", coarse, differ)
	}
}

// rowSum is what a solution takes up of row 0.
func (in *instance) rowSum(cols []int, on []bool) (sum int64) {
	for _, c := range cols {
		sum += coefOf(in.cols[c].terms, 0)
	}
	for h := range in.switches {
		if on[h] {
			sum += coefOf(in.switches[h].terms, 0)
		}
	}
	return sum
}

// TestSums: what combinations that are small enough come to is what large numbers come to.
func TestSums(t *testing.T) {
	near := 0
	for seed := range uint64(4000) {
		r := rand.New(rand.NewPCG(seed, 97))
		p := realProblem(r, 2+r.IntN(4), 4)
		if refusal(p) != nil {
			continue
		}
		in := newInstance(p, &Change{}, without{dominance: true})
		in.findBlocks(true)
		k := in.newCombination()
		for _, list := range [][]int64{k.row, k.link, k.min, k.need, k.group} {
			for i := range list {
				list[i] = r.Int64N(2<<20) - 1<<20
			}
		}
		room := mostSum / max(1, in.weights().of(k))
		if room < 1 {
			continue
		}
		by := int64(math.Min(room*0.99, 1<<40))
		for _, list := range [][]int64{k.row, k.link, k.min, k.need, k.group} {
			for i := range list {
				list[i] *= by
			}
		}
		if in.weights().of(k) > mostSum/2 {
			near++
		}
		d, q := in.fullDomain(), in.newInequality()
		in.gather(d, k, q)
		limit := new(big.Int)
		add := func(sum *big.Int, m, v int64) { sum.Add(sum, new(big.Int).Mul(big.NewInt(m), big.NewInt(v))) }
		for i, m := range k.row {
			add(limit, m, in.rows[i].limit)
		}
		for g := range in.groups {
			add(limit, 1, k.group[g])
		}
		if !limit.IsInt64() || limit.Int64() != q.limit {
			t.Errorf("seed %d: limit %d, in large numbers %v", seed, q.limit, limit)
		}
		for h := range in.switches {
			w, sum, topUp := &in.switches[h], new(big.Int), new(big.Int)
			for _, m := range w.terms {
				add(sum, k.row[m.Row], m.Coef)
			}
			for i := range in.rows {
				if in.pays(i, h) {
					add(sum, k.row[i], w.fixed)
					add(topUp, k.row[i], 1)
				}
			}
			add(sum, k.min[h], w.minimum)
			add(topUp, k.min[h], -1)
			for i, l := range in.links {
				if l.sw == h {
					add(sum, k.link[i], -1)
				}
			}
			for i, n := range in.needPairs() {
				if n.group == h {
					add(sum, k.need[i], 1)
				} else if n.sw == h {
					add(sum, k.need[i], -1)
				}
			}
			if !sum.IsInt64() || sum.Int64() != q.switches[h] || !topUp.IsInt64() || topUp.Int64() != q.topUps[h] {
				t.Errorf("seed %d: switch %d comes to %d, %d, in large numbers %v, %v",
					seed, h, q.switches[h], q.topUps[h], sum, topUp)
			}
		}
		for c := range in.cols {
			sum := big.NewInt(k.group[in.cols[c].group])
			for _, m := range in.cols[c].terms {
				add(sum, k.row[m.Row], m.Coef)
			}
			for _, l := range in.cols[c].links {
				add(sum, k.link[l], 1)
			}
			for _, l := range in.cols[c].loads {
				add(sum, -k.min[l.Switch], l.Amount)
			}
			if !sum.IsInt64() || sum.Int64() != q.cols[c] {
				t.Errorf("seed %d: column %d comes to %d, in large numbers %v", seed, c, q.cols[c], sum)
			}
		}
	}
	if near < 40 {
		t.Errorf("only %d near what is allowed", near)
	}
}
