package solver

import (
	"context"
	"math/rand/v2"
	"testing"
)

// TestRoundManyGroups: sums of many groups and switches, each near what a sum may come to, make
// a row that every pick keeps, or none. Here every pick is a solution.
func TestRoundManyGroups(t *testing.T) {
	made, refused := 0, 0
	for seed := range uint64(1500) {
		r := rand.New(rand.NewPCG(seed, 99))
		p := &Problem{Rows: make([]Row, 2)}
		for h := range r.IntN(9) {
			p.Switches = append(p.Switches, Switch{Fixed: r.Int64N(100), Terms: []Term{{h % 2, -1 - r.Int64N(1<<22)}}})
		}
		groups := 2 + r.IntN(200)
		for range groups {
			g := Group{Columns: []Column{{}, {Terms: []Term{{0, -r.Int64N(1 << 22)}, {1, -r.Int64N(1 << 22)}}}}}
			if n := len(p.Switches); n > 0 {
				g.Columns[r.IntN(2)].Needs = []int{r.IntN(n)}
			}
			p.Groups = append(p.Groups, g)
		}
		for i := range p.Rows {
			p.Rows[i].Limit = r.Int64N(3)
		}
		in := newInstance(p, &Change{}, without{dominance: true})
		in.rows = []row{{limit: p.Rows[0].Limit}, {limit: p.Rows[1].Limit}} // though nothing can break them
		in.scale = []float64{1 << 22, 1 << 22}
		for c := range in.cols {
			in.cols[c].terms = p.Groups[in.cols[c].group].Columns[in.cols[c].orig].Terms
		}
		for h := range in.switches {
			in.switches[h].terms = p.Switches[h].Terms
		}
		in.list()
		k := in.newCombination()
		for _, list := range [][]int64{k.row, k.link, k.group} {
			for i := range list {
				list[i] = int64((2*r.Float64() - 1) * fineness)
			}
		}
		for i := range k.row {
			k.row[i] >>= r.IntN(3)
		}
		for range 60 {
			if in.weights().of(k) < mostSum {
				break
			}
			for i := range k.row {
				k.row[i] /= 2
			}
		}
		x := &relaxation{y: make([]float64, len(p.Switches))}
		for h := range x.y {
			x.y[h] = r.Float64()
		}
		w := in.round(in.fullDomain(), k, x)
		if w == nil {
			refused++
			continue
		}
		made++
		for range 60 {
			cols, on := make([]int, groups), make([]bool, len(p.Switches))
			for g := range cols {
				cols[g] = in.groups[g][0] + r.IntN(2)
				for _, h := range in.cols[cols[g]].needs {
					on[h] = true
				}
			}
			if sum := w.sum(cols, on); sum > w.limit {
				t.Errorf("seed %d: %v, on %v come to %d, above %d", seed, cols, on, sum, w.limit)
			}
		}
	}
	if made < 200 || refused < 200 {
		t.Errorf("%d rows made, %d refused", made, refused)
	}
}

// TestSumsOfGroups: a row of large coefficients that few groups take part in, beside rows of
// others that leave something to search: what its multiples come to in all groups overflows.
func TestSumsOfGroups(t *testing.T) {
	for seed := range uint64(20) {
		p := largeRow(rand.New(rand.NewPCG(seed, 1)), 20, 1<<23)
		var totals [2]int64
		for i, leave := range []without{{implied: true}, {}} {
			s, err := New(p)
			if err != nil {
				t.Fatal(err)
			}
			s.leave = leave
			res, err := s.Solve(context.Background(), Change{}, Settings{Goroutines: 1})
			if err != nil || res.Status != Optimal {
				t.Fatal(res.Status, err)
			}
			totals[i] = res.Total
		}
		if totals[0] != totals[1] {
			t.Errorf("seed %d: %d, without implied rows %d", seed, totals[1], totals[0])
		}
	}
}

func largeRow(r *rand.Rand, few int, large int64) *Problem {
	const others = 22
	p := &Problem{Rows: []Row{{Limit: 1}, {Sense: AtLeast}, {Sense: AtLeast}, {Sense: AtLeast}}}
	for i := range few {
		p.Groups = append(p.Groups, Group{Columns: []Column{{},
			{Cost: large*1000/3 + 1000 + int64(i), Terms: []Term{{0, -large}}}}})
	}
	p.Groups = append(p.Groups, Group{Columns: []Column{{Cost: 1000}, {Terms: []Term{{0, 3}}}}})
	for range others {
		c := Column{Cost: 100_000 + r.Int64N(1_000_000)}
		for k := 1; k <= 3; k++ {
			v := 20 + r.Int64N(80)
			p.Rows[k].Limit += v
			c.Terms = append(c.Terms, Term{k, v})
		}
		p.Groups = append(p.Groups, Group{Columns: []Column{{}, c}})
	}
	for k := 1; k <= 3; k++ {
		p.Rows[k].Limit = p.Rows[k].Limit * 45 / 100
	}
	for range few + others {
		p.Groups = append(p.Groups, Group{Columns: []Column{{Cost: 1}}})
	}
	return p
}
