package solver

import (
	"math"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// twins is a problem of two tied groups, the second with two columns that differ in one
// row alone, by coefficients of which only the second fits.
func twins(first, second int64) *Problem {
	return &Problem{
		Rows: []Row{{Name: "completion", Limit: 10 + second}},
		Groups: []Group{
			{Columns: []Column{{Cost: 5, Terms: []Term{{0, 10}}}, {Cost: 900, Terms: []Term{{0, 0}}}}},
			{Columns: []Column{{Cost: 1, Terms: []Term{{0, first}}}, {Cost: 2, Terms: []Term{{0, second}}}, {Cost: 700}}},
			{Columns: []Column{{Cost: 1}}}, {Columns: []Column{{Cost: 1}}}, {Columns: []Column{{Cost: 1}}},
		},
		WithinTolerance: []WithinTolerance{{
			Name:      "near",
			Groups:    []int{0, 1},
			Values:    [][]int64{{0, 0}, {0, 0, 0}},
			Tolerance: 5,
		}},
	}
}

// TestClassesApart: columns with different coefficients in a row that their block shares
// are in different classes, whatever a narrower type makes of the coefficients.
func TestClassesApart(t *testing.T) {
	for _, k := range [][2]int64{
		{2, 1}, {55_297, 55_296}, {56_600, 56_570}, {57_343, 55_296}, {65_533, 55_300}, {65_537, 1}, {1_114_113, 1_114_112},
		{2_000_000, 1_200_000}, {13_815_511, 13_815_510}, {1<<32 + 1, 1}, {1<<53 - 11, 1<<53 - 12},
	} {
		p := twins(k[0], k[1])
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(false)
		if in.blocks[0].single() || len(in.sharedRows(&in.blocks[0])) == 0 {
			t.Fatal("no block with a row of its own")
		}
		if n := in.groups[1][0]; in.classOf[n] == in.classOf[n+1] {
			t.Errorf("%d and %d are in one class", k[0], k[1])
		}
		s, err := New(p)
		if err != nil {
			continue // a sum of it would be too large
		}
		res, err := s.Solve(t.Context(), Change{}, Settings{})
		if want, _ := bruteForce(p, Change{}); err != nil || res.Total != want {
			t.Errorf("%d and %d: total %d (%v), by trying everything %d", k[0], k[1], res.Total, err, want)
		}
	}
}

// TestRoomFromOutside: a group outside a block may make room in a row that the block
// shares; what goes together only then is not ruled out.
func TestRoomFromOutside(t *testing.T) {
	p := twins(20, 10)
	p.Rows[0].Limit = 0
	p.Groups[2].Columns[0].Terms = []Term{{0, -20}}
	p.Groups = append(p.Groups, p.Groups[3], p.Groups[3]) // so that most have no part in the row
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	res, err := s.Solve(t.Context(), Change{}, Settings{})
	if err != nil || res.Total != 12 {
		t.Errorf("total %d (%v), 12 is possible", res.Total, err)
	}
}

// TestBlocksByTrying: in every block, classes that some solution picks together go
// together, and columns of one class are alike in all the block looks at.
func TestBlocksByTrying(t *testing.T) {
	apart := 0
	for seed := range uint64(campaign.Cases(600, 20_000)) {
		r := rand.New(rand.NewPCG(seed, 23))
		p := realBlocks(r)
		if seed%2 == 1 {
			p = realProblem(r, 6, 3)
		}
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(seed%3 > 0)
		for i := range in.blocks {
			b := &in.blocks[i]
			if b.single() {
				continue
			}
			for _, cols := range b.classes {
				for _, c := range cols[1:] {
					for _, r := range in.sharedRows(b) {
						if len(b.classes) <= mostClasses && coefOf(in.cols[c].terms, r) != coefOf(in.cols[cols[0]].terms, r) {
							t.Errorf("seed %d: columns %d and %d are in one class, and differ in row %d", seed, cols[0], c, r)
						}
					}
				}
			}
			for k := range b.classes {
				for l := range k {
					if b.groupOf[k] != b.groupOf[l] && !b.goes[k].has(l) {
						apart++
					}
				}
			}
		}
		eachPick(p, in, func(pick []int, _ []bool, _ int64) {
			for i := range in.blocks {
				b := &in.blocks[i]
				for j, g := range b.groups {
					for _, h := range b.groups[:j] {
						if k, l := in.classOf[pick[g]], in.classOf[pick[h]]; !b.goes[k].has(l) {
							t.Errorf("seed %d: a solution picks classes %d and %d of block %d, said to exclude each other", seed, k, l, i)
						}
					}
				}
			}
		})
	}
	if apart < 300 {
		t.Errorf("only %d pairs of classes exclude each other: too few to tell", apart)
	}
}

// TestBlockBound: what a block adds to a bound is not above the sum of any pick of it
// that goes together, also where the search for it is cut off.
func TestBlockBound(t *testing.T) {
	for seed := range uint64(campaign.Cases(600, 10_000)) {
		r := rand.New(rand.NewPCG(seed, 24))
		p := realBlocks(r)
		in := newInstance(p, &Change{}, without{})
		in.findBlocks(true)
		rc := make([]float64, len(in.cols))
		for c := range rc {
			rc[c] = float64(in.cols[c].cost) * (r.Float64()*2 - 0.5)
		}
		for i := range in.blocks {
			b := &in.blocks[i]
			if b.single() {
				continue
			}
			k := b.rank(in.fullDomain(), rc)
			low, _ := k.bound()
			rest := k.others()
			least := math.Inf(1)
			eachPick(p, in, func(pick []int, _ []bool, _ int64) {
				sum := 0.0
				for _, g := range b.groups {
					sum += rc[pick[g]]
				}
				least = min(least, sum)
				for _, g := range b.groups {
					if c := pick[g]; rest[in.classOf[c]]+rc[c] > sum+1e-6 {
						t.Errorf("seed %d: beside column %d the block is said to add %v; a pick adds %v", seed, c, rest[in.classOf[c]],
							sum-rc[c])
					}
				}
			})
			if low > least+1e-6 {
				t.Errorf("seed %d: block %d adds %v, said to be at least %v", seed, i, least, low)
			}
		}
	}
}
