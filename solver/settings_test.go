package solver

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// TestSettings: the best setting beside one pick, and of equal ones the first, against
// trying all; a search that is cut off says so.
func TestSettings(t *testing.T) {
	cut := 0
	for seed := range uint64(campaign.Cases(600, 50_000)) {
		r := rand.New(rand.NewPCG(seed, 33))
		p := tradeProblem(r, 1+r.IntN(3), 1+r.IntN(7), tradeKind(r.IntN(3)))
		randomNeeds(r, p)
		in := newInstance(p, &Change{}, without{})
		tally := in.newTally()
		pick := make([]int, len(p.Groups))
		for g := range p.Groups {
			pick[g] = r.IntN(len(p.Groups[g].Columns))
			tally.set(g, in.groups[g][0]+pick[g])
		}
		want, found := firstSetting(p, pick)
		for _, budget := range []int{1 << 20, 3} {
			got, has := []bool(nil), false
			exact, _ := tally.withVoluntary(nil, Limit, budget, func() { has, got = true, append([]bool(nil), tally.vol...) })
			switch {
			case !exact && budget > 3:
				t.Fatalf("seed %d: the search gives up", seed)
			case !exact:
				cut++
			case has != found || has && !sameOn(p, pick, got, want):
				t.Fatalf("seed %d: %v %v instead of %v %v", seed, has, got, found, want)
			}
		}
	}
	if cut == 0 {
		t.Error("no search was cut off: the switches are in nobody's way")
	}
}

// sameOn says whether two settings turn on the same switches beside a pick.
func sameOn(p *Problem, pick []int, a, b []bool) bool {
	return fmt.Sprint(p.Evaluate(pick, a, Change{}).On) == fmt.Sprint(p.Evaluate(pick, b, Change{}).On)
}

// firstSetting goes through all settings, the first switch being the last to change.
func firstSetting(p *Problem, pick []int) (best []bool, found bool) {
	var vol []int
	for h := range p.Switches {
		if p.Switches[h].Voluntary {
			vol = append(vol, h)
		}
	}
	least := int64(0)
	for mask := range 1 << len(vol) {
		on := make([]bool, len(p.Switches))
		for i, h := range vol {
			on[h] = mask>>(len(vol)-1-i)&1 == 1
		}
		if o := p.Evaluate(pick, on, Change{}); len(o.Broken) == 0 && (!found || o.Total < least) {
			best, found, least = on, true, o.Total
		}
	}
	return best, found
}
