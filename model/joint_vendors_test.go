package model

import (
	"context"
	"testing"

	"brightset/catalog"
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
		out, err := PlanTogether(context.Background(), pair, solver.Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want, found := ownVendorsBrute(pair)
		if out.Has != found || found && (out.Status != solver.Optimal || out.Expected != want) {
			t.Errorf("seed %d: %s, %d in hand %t; by trying everything %d, %t", seed, out.Status, out.Expected, out.Has, want, found)
		}
		freights := map[string]int{}
		for _, c := range out.Charges {
			switch c.Kind {
			case ChargeBundle:
				if c.Single[0] > 0 && c.Single[1] > 0 {
					once++
				}
			case ChargeVendorFreight:
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

// ownVendorsBrute tries every plan of one job with every plan of the other.
func ownVendorsBrute(pair []*catalog.State) (best catalog.Cents, found bool) {
	first, second := jointLeaves(pair[0]), jointLeaves(pair[1])
	for i := range first {
		for k := range second {
			a, b := &first[i], &second[k]
			if !goTogether(pair[0], a, b) {
				continue
			}
			total := a.cost + b.cost + togetherCharges(pair[0], a, b, true)
			for v := range pair[0].Vendors {
				if a.vendors[v] && b.vendors[v] {
					total += pair[0].Vendors[v].Freight // both pay it
				}
			}
			if !found || total < best {
				best, found = total, true
			}
		}
	}
	return best, found
}
