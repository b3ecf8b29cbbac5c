package joint

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/jobs"
	"brightset/model/internal/oracle"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestSizesOfPairs: the same with two jobs of one shop.
func TestSizesOfPairs(t *testing.T) {
	for seed := range int64(campaign.Cases(60, 3_000)) {
		pair := randomPair(seed, 1+int(seed%2))
		for j, st := range pair { // what is the shop's is the same for both
			r := rand.New(rand.NewPCG(uint64(seed), uint64(80+j)))
			for s := range st.Slots {
				st.Slots[s].Weight = jobs.Weight(r)
			}
			for i := range st.Pieces {
				p := &st.Pieces[i]
				if !p.InShop && p.Chance < catalog.One {
					p.Chance = catalog.One - jobs.FailChance(r)
				}
				for q := range p.Quotes {
					if !p.InShop {
						jobs.RealQuote(r, &p.Quotes[q], func() catalog.Cents {
							return 100_00 + catalog.Cents(r.IntN(3))
						}, []catalog.Centi{70_00, 70_01})
					}
				}
			}
			jobs.OnTheEdge(r, st)
		}
		out, err := Solve(context.Background(), pair, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want, feasible := oracle.Together(pair, oracle.AllOfShop)
		if out.Has != feasible || out.Has && (out.Status != solver.Optimal || out.Weighed() != want) {
			t.Errorf("seed %d: %s, %d in hand %t; by trying everything %d, %t", seed, out.Status, out.Weighed(), out.Has,
				want, feasible)
		}
	}
}
