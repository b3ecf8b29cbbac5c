package solver

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/testdata/campaign"
)

// alikeRich makes a problem in which groups have columns in common, some all of them, in
// another order and beside some of their own.
func alikeRich(r *rand.Rand) *Problem {
	p := randomProblem(r, 2+r.IntN(5), 4)
	for g := 1; g < len(p.Groups); g++ {
		if r.IntN(4) > 0 {
			takeOver(r, p, r.IntN(g), g)
		}
	}
	return p
}

// takeOver gives a group most columns of another, and the rules they are both in the same
// values or labels for them.
func takeOver(r *rand.Rand, p *Problem, from, to int) {
	was := p.Groups[to].Columns
	src := r.Perm(len(p.Groups[from].Columns))
	if len(src) > 2 && r.IntN(2) == 0 {
		src = src[:len(src)-1]
	}
	if r.IntN(4) == 0 {
		src = append(src, src[0]) // the same twice
	}
	var cols []Column
	for _, c := range src {
		cols = append(cols, p.Groups[from].Columns[c])
	}
	if r.IntN(4) == 0 {
		cols[0].Tie[r.IntN(2)]++ // not quite the same
	}
	if own := r.IntN(3); own == 0 {
		cols, src = append(cols, was[0]), append(src, -1)
	}
	p.Groups[to].Columns = cols
	for i := range p.WithinTolerance {
		n := &p.WithinTolerance[i]
		if at := slices.Index(n.Groups, to); at >= 0 {
			n.Values[at] = carry(n.Values, slices.Index(n.Groups, from), src, func() int64 { return r.Int64N(12) })
		}
	}
	for i := range p.AllEqual {
		s := &p.AllEqual[i]
		if at := slices.Index(s.Groups, to); at >= 0 {
			s.Labels[at] = carry(s.Labels, slices.Index(s.Groups, from), src, func() int { return r.IntN(4) - 1 })
		}
	}
}

func carry[T any](of [][]T, from int, src []int, any func() T) (out []T) {
	for _, c := range src {
		if from >= 0 && c >= 0 {
			out = append(out, of[from][c])
		} else {
			out = append(out, any())
		}
	}
	return out
}

// TestTiesAlike: the answer where groups have columns in common, against trying everything.
func TestTiesAlike(t *testing.T) {
	defer func(was int) { tieTries = was }(tieTries)
	tiesBrute(t, alikeRich)
	tieTries = 0
	tiesBrute(t, func(r *rand.Rand) *Problem {
		p := alikeRich(r)
		for g := range p.Groups {
			for c := range p.Groups[g].Columns {
				p.Groups[g].Columns[c].Tie = [2]int64{}
			}
		}
		return p
	})
}

// TestOrderDrops: keeping groups in order takes something away in searches with little else,
// and takes away nothing that is better, or as good and first by its ties.
func TestOrderDrops(t *testing.T) {
	dropped := 0
	for seed := range uint64(campaign.Cases(1500, 20_000)) {
		r := rand.New(rand.NewPCG(seed, 93))
		p := alikeRich(r)
		if refusal(p) != nil {
			continue
		}
		in := newInstance(p, &Change{}, without{})
		in.findAlike()
		d := in.fullDomain()
		_, _, best, _ := leastTies(p, Change{})
		for g, span := range in.groups {
			for c := span[0]; c < span[1]; c++ {
				if r.IntN(2) == 0 && (best == nil || in.cols[c].orig != best[g]) {
					d.alive.drop(c)
				}
			}
		}
		was := d.alive.count()
		in.propagateOrder(d)
		if d.alive.count() < was {
			dropped++
		}
		for g := range best {
			if c := in.groups[g][0] + best[g]; !d.alive.has(c) {
				t.Errorf("seed %d: column %d of group %d is gone, the best answer is %v", seed, best[g], g, best)
			}
		}
	}
	if dropped < campaign.Cases(100, 1000) {
		t.Errorf("the order took something away %d times", dropped)
	}
}

// TestCommon: what groups have in common, where one has a column of its own that costs the
// same, and where a change gives one column another cost.
func TestCommon(t *testing.T) {
	x, y, own := Column{Cost: 5, Terms: []Term{{0, 1}}}, Column{Cost: 7}, Column{Cost: 7, Terms: []Term{{0, 2}}}
	p := &Problem{Rows: []Row{{Limit: 100}}, Groups: []Group{
		{Columns: []Column{x, y}}, {Columns: []Column{x, own}}, {Columns: []Column{own, y, x}}, {Columns: []Column{y, x}}}}
	p.Groups[1].Columns[1] = Column{Cost: 7, Tie: [2]int64{1, 0}} // its number is that of y
	for _, c := range []struct {
		ch   Change
		want [][2]int
	}{
		{Change{}, [][2]int{{0, 2}, {2, 3}}},
		{Change{Costs: []CostTo{{Pick{3, 0}, 8}}}, [][2]int{{0, 2}}},
		{Change{Ban: []Pick{{2, 1}}}, [][2]int{{0, 3}}},
	} {
		in := newInstance(p, &c.ch, without{})
		for _, ties := range []bool{false, true} {
			if ties {
				in.alike = nil
				in = in.among(fullBits(len(in.cols)), 1000)
			}
			in.findAlike()
			var got [][2]int
			for _, k := range in.alike {
				got = append(got, [2]int{k.first, k.second})
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("%+v, ties for the total %v: in order are %v, not %v", c.ch, ties, got, c.want)
			}
		}
	}
}

// TestManyAlike: a job of equal places, each filled from the same offers with two tight rows,
// is over in few nodes, and in many where columns may come in any order.
func TestManyAlike(t *testing.T) {
	p := equalPlaces(10, 7)
	nodes := map[bool]int{}
	for _, order := range []bool{false, true} {
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		s.leave = without{order: order, walks: true, layers: true, implied: true}
		res, err := s.Solve(context.Background(), Change{}, Settings{TotalAlone: true})
		if err != nil || res.Status != Optimal {
			t.Fatalf("%v, %v", res.Status, err)
		}
		nodes[order] = res.Nodes
	}
	if 2*nodes[false] > nodes[true] {
		t.Errorf("%d nodes in order, %d in any order", nodes[false], nodes[true])
	}
}

func equalPlaces(groups, columns int) *Problem {
	r := rand.New(rand.NewPCG(1, 95))
	var offers []Column
	for range columns {
		a, b := 100+r.Int64N(900), 100+r.Int64N(900)
		offers = append(offers, Column{Cost: 3000 - a - b + r.Int64N(400), Terms: []Term{{0, a}, {1, b}}})
	}
	p := &Problem{Rows: []Row{{Limit: int64(groups) * 511}, {Limit: int64(groups) * 487}}}
	for range groups {
		p.Groups = append(p.Groups, Group{Columns: offers})
	}
	return p
}
