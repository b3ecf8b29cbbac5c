package solver

import (
	"context"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// TestBoundOfWhatIsKnown: a question that is cut off before its first linear program says
// what is known of it from what was asked before: no total is below.
func TestBoundOfWhatIsKnown(t *testing.T) {
	told, exact := 0, 0
	for seed := range uint64(campaign.Cases(200, 5000)) {
		r := rand.New(rand.NewPCG(seed, 69))
		p := paired(r)
		s, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Solve(context.Background(), Change{}, Settings{}); err != nil || s.memory.row == nil {
			continue
		}
		ch := changeOf(r, p)
		fresh, _ := New(p)
		least, err := fresh.Solve(context.Background(), ch, Settings{})
		if err != nil || !least.Has {
			continue
		}
		res, err := s.Fork().Solve(context.Background(), ch, Settings{NodeLimit: 1})
		if err != nil || res.Bound > least.Total || res.Has && res.Total < least.Total {
			t.Fatalf("seed %d: at least %d is said, the least is %d (%v)", seed, res.Bound, least.Total, err)
		}
		if res.Status == Stopped && res.Bound > least.Total/2 {
			told++
		}
		if res.Status == Optimal {
			exact++
		}
	}
	t.Logf("%d cut off with a bound, %d answered", told, exact)
	if told < 5 {
		t.Errorf("only %d were cut off with a bound: too few to tell", told)
	}
}
