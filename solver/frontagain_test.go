package solver

import (
	"context"
	"slices"
	"testing"
	"time"

	"brightset/testdata/campaign"
)

// TestFrontAgain: what is asked again with time enough closes every gap and gives the points that
// there are; what is cut off again leaves what it leaves within the gaps.
func TestFrontAgain(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Hour)
	defer cancel()
	closed, found := 0, 0
	for seed := range uint64(campaign.Cases(48, 2000)) {
		for _, wide := range []int64{1, 25} {
			f := Front{Row: 0, From: 1, To: 600, Next: func(v int64) int64 { return (v/wide + 1) * wide }}
			s, err := New(risingPairs(seed))
			if err != nil {
				t.Fatal(err)
			}
			all, _, err := s.Front(context.Background(), Change{}, f, Settings{})
			if err != nil {
				t.Fatal(err)
			}
			w := &front{Front: f, ctx: ctx, set: Settings{NodeLimit: 1}, parts: 4}
			s, _ = New(risingPairs(seed))
			first, left, err := w.look(s)
			if err != nil {
				t.Fatal(err)
			}
			still, rest, err := w.again(slices.Clone(first), left)
			if err != nil {
				t.Fatal(err)
			}
			covered(t, seed, all, still, gapsOf(rest))
			w.set = Settings{}
			again, rest, err := w.again(first, left)
			if err != nil || len(rest) > 0 {
				t.Errorf("seed %d, step %d: with all the time there is %v is left (%v)", seed, wide, gapsOf(rest), err)
			}
			got := pointsOf(undominated(again))
			if want := pointsOf(all); wide == 1 && !slices.Equal(got, want) {
				t.Errorf("seed %d: asked again %v, at once %v", seed, got, want)
			}
			closed, found = closed+len(gapsOf(left)), found+len(again)-len(first)
		}
	}
	if closed < 20 || found < 20 {
		t.Errorf("%d gaps closed, %d points found: too few to tell", closed, found)
	}
}

// covered looks whether whatever is not found and proven lies in a gap, and none of it is below
// what is said of that.
func covered(t *testing.T, seed uint64, all, found []Point, gaps []Gap) {
	t.Helper()
	for _, q := range all {
		if slices.ContainsFunc(found, func(k Point) bool {
			return k.Status == Optimal && k.Total == q.Total && k.Sum >= q.Sum
		}) {
			continue
		}
		at := slices.IndexFunc(gaps, func(g Gap) bool { return g.After < q.Sum && q.Sum <= g.Until })
		if at < 0 || gaps[at].Bound > q.Total {
			t.Errorf("seed %d: nothing is said of %d at %d: %v", seed, q.Total, q.Sum, gaps)
		}
	}
}

func pointsOf(all []Point) (out [][2]int64) {
	for i := range all {
		out = append(out, [2]int64{all[i].Total, all[i].Sum})
	}
	return out
}
