package jobs

import (
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/testdata/campaign"
)

// TestAllMoneyOnce: each amount of a job is one amount, in one place, however the job came
// about. Two pieces that held their quotes together had what was done to one done twice:
// prices were multiplied until they turned negative.
func TestAllMoneyOnce(t *testing.T) {
	equal := 0
	for seed := range int64(campaign.Cases(1400, 20_000)) {
		st := Random(seed, 1+int(seed%5), Options{})
		r := rand.New(rand.NewPCG(uint64(seed), 80))
		RealSizes(r, st)
		AsLargeAsCan(st)
		seen := map[*catalog.Cents]bool{}
		for i, m := range AllMoney(st) {
			if seen[m] || *m < 0 || int64(*m) > catalog.MaxSum {
				t.Fatalf("seed %d: amount %d is %d, seen before: %v", seed, i, *m, seen[m])
			}
			seen[m] = true
		}
		equal += pairsAlike(st)
	}
	if equal < 10 {
		t.Errorf("only %d pairs of pieces with quotes are alike: too few to tell", equal)
	}
}

// pairsAlike is how many pairs of pieces have as many quotes, with the same ids, the first of them of
// the same plater, at the same chance.
func pairsAlike(st *catalog.State) int {
	n := 0
	for i := range st.Pieces {
		for k := range i {
			a, b := st.Pieces[i].Quotes, st.Pieces[k].Quotes
			if len(a) > 0 && len(a) == len(b) && a[0].ID == b[0].ID && a[0].Plater == b[0].Plater &&
				a[0].Breakage == b[0].Breakage {
				n++
			}
		}
	}
	return n
}
