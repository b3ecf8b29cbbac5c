package joint

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/oracle"
	"brightset/model/plan"
	"brightset/solver"
)

// TestJointOwnVendors: where the vendors stand in the jobs' files, each job pays its own
// freight, and a bundle of the shop's is bought once all the same.
func TestJointOwnVendors(t *testing.T) {
	once, twice := 0, 0
	for seed := range int64(150) {
		pair := randomPair(seed, 2)
		for _, st := range pair {
			for v := range st.Vendors {
				st.Vendors[v].From.Source = catalog.JobFile
			}
		}
		out, err := Solve(context.Background(), pair, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want, found := oracle.Together(pair, oracle.ButFreights)
		if out.Has != found || found && (out.Status != solver.Optimal || out.Weighed() != want) {
			t.Errorf("seed %d: %s, %d in hand %t; by trying everything %d, %t", seed, out.Status, out.Weighed(), out.Has,
				want, found)
		}
		freights := map[string]int{}
		for _, c := range out.Charges {
			switch c.Kind {
			case plan.ChargeBundle:
				if c.Single[0] > 0 && c.Single[1] > 0 {
					once++
				}
			case plan.ChargeVendorFreight:
				if freights[c.ID]++; freights[c.ID] == 2 {
					twice++
				}
			}
		}
	}
	if once < 2 || twice < 2 {
		t.Errorf("%d bundles for both jobs, %d vendors of both: too few to tell", once, twice)
	}
}
