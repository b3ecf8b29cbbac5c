//go:build cgo

package solver

import (
	"math"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// both is the two engines side by side: it answers what ours says, and keeps where they
// differ.
type both struct{ t *testing.T }

type bothLoaded struct {
	both
	l         *linear
	ours, clp loaded
}

func (b both) once(l *linear) (solution, bool) {
	ours, ok := simplexEngine{}.once(l)
	theirs, has := clpEngine{}.once(l)
	b.compare(l, ours, theirs, ok, has)
	return ours, ok
}

func (b both) load(l *linear) loaded {
	return &bothLoaded{b, l, simplexEngine{}.load(l), clpEngine{}.load(l)}
}

func (b *bothLoaded) close() { b.clp.close() }

func (b *bothLoaded) resolve(halt func() bool) (solution, bool) {
	ours, ok := b.ours.resolve(halt)
	theirs, has := b.clp.resolve(halt)
	if !halt() {
		b.compare(b.l, ours, theirs, ok, has)
	}
	return ours, ok
}

func (b both) compare(l *linear, ours, theirs solution, ok, has bool) {
	b.t.Helper()
	if ok != has {
		b.t.Errorf("%d rows, %d columns: solved by ours %v, by the other %v", len(l.rowLo), len(l.cols), ok, has)
	}
	if ok && has && math.Abs(ours.value-theirs.value) > 1e-6*(1+math.Abs(theirs.value)) {
		b.t.Errorf("%d rows, %d columns: %v by ours, %v by the other", len(l.rowLo), len(l.cols), ours.value, theirs.value)
	}
}

// TestEnginesAgree: every linear program of whole searches has the same optimum by both.
// In the first one terms that cancel leave a coefficient of 1e-17: a row scaled by that was
// taken for one that nothing meets.
func TestEnginesAgree(t *testing.T) {
	seeds := []uint64{2185}
	for seed := range uint64(campaign.Cases(120, 5_000)) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		s, err := New(randomProblem(rand.New(rand.NewPCG(seed, 52)), 3+int(seed%12), 12))
		if err != nil {
			t.Fatal(err)
		}
		s.leave.engine = both{t}
		if _, err := s.Solve(t.Context(), Change{}, Settings{Goroutines: 1}); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
	}
}
