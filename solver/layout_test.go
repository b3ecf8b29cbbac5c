package solver

import (
	"context"
	"math/rand/v2"
	"reflect"
	"testing"

	"brightset/testdata/campaign"
)

// paired draws a problem with two slots side by side that carry one label and share a
// piece, and a mean that makes linear programs of it.
func paired(r *rand.Rand) *Problem {
	p := &Problem{Rows: []Row{{Name: "mean", Sense: AtLeast, Limit: 270 + r.Int64N(80)}, {Name: "piece", Limit: 1}}}
	for g := range 6 {
		grp := Group{}
		for range 4 {
			grade := 30 + r.Int64N(60)
			c := Column{Cost: 2*grade + r.Int64N(60), Terms: []Term{{0, grade}}}
			if g < 2 && r.IntN(2) == 0 {
				c.Terms, c.Cost = append(c.Terms, Term{1, 1}), c.Cost/2
			}
			grp.Columns = append(grp.Columns, c)
		}
		p.Groups = append(p.Groups, grp)
	}
	p.AllEqual = []AllEqual{{Groups: []int{0, 1}, Labels: [][]int{{0, 1, 0, 1}, {0, 1, 0, 1}}}}
	return p
}

// TestLaidOutOnce: a solver that has laid a problem out, and knows of it, answers under
// changes as one that starts from nothing: what goes together where a piece may be used
// once goes together no more, or again, where another number of it may be used.
func TestLaidOutOnce(t *testing.T) {
	kept, more := 0, 0
	for seed := range uint64(campaign.Cases(300, 5000)) {
		r := rand.New(rand.NewPCG(seed, 67))
		p := paired(r)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		least, err := s.Solve(context.Background(), Change{}, Settings{})
		if err != nil || !least.Has {
			continue
		}
		ban := Pick{r.IntN(6), r.IntN(4)}
		below := least.Total + r.Int64N(100)
		for i, ch := range []Change{
			{Ban: []Pick{ban}}, {Fix: []Pick{ban}}, {Limits: []LimitTo{{1, 2}}}, {Limits: []LimitTo{{0, 300}}, Ban: []Pick{ban}},
			{Costs: []CostTo{{ban, 1}}}, {Below: &below, Ban: []Pick{ban}},
		} {
			fresh, _ := New(p)
			a, errA := s.Fork().Solve(context.Background(), ch, Settings{})
			b, errB := fresh.Solve(context.Background(), ch, Settings{})
			if errA != nil || errB != nil || a.Has != b.Has || a.Status != b.Status || a.Total != b.Total ||
				a.Settled && b.Settled && !reflect.DeepEqual(a.Pick, b.Pick) {
				t.Fatalf("seed %d, change %d: %v %d %v laid out before, %v %d %v from nothing (%v, %v)", seed, i, a.Status,
					a.Total, a.Pick, b.Status, b.Total, b.Pick, errA, errB)
			}
			if i == 2 && b.Total < least.Total {
				more++
			}
		}
		if s.layout.in != nil {
			kept++
		}
	}
	if kept < 50 || more < 5 {
		t.Errorf("%d laid out once, %d with a use for the piece twice: too few to tell", kept, more)
	}
}
