package ask

import (
	"context"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/solver"
	"brightset/testdata/campaign"
)

// TestTakers: over random jobs of which the makers are gone and nobody else does all works,
// somebody for the works named fills every slot named, none of them can be left out, and
// where that makes a whole set nothing else is said to clash.
func TestTakers(t *testing.T) {
	missed, whole, others := 0, 0, 0
	for seed := range int64(campaign.Cases(240, 1200)) {
		st := jobs.Random(seed, 3, jobs.Options{})
		st.Makers, st.Shop.Works = nil, nil
		for q := range st.Platers {
			st.Platers[q].Works = nil
		}
		takers, with := Takers(st)
		if len(takers) == 0 {
			continue
		}
		missed++
		for i, taker := range takers {
			var works []int
			for k := range takers {
				if k != i {
					works = append(works, takers[k].Work)
				}
			}
			less, all := choice.WithTakers(st, works), true
			for k := range takers {
				for _, s := range takers[k].Slots {
					all = all && fillable(less, s)
					if fillable(st, s) || !fillable(with, s) {
						t.Errorf("seed %d: slot %d does not wait for work %d", seed, s, taker.Work)
					}
				}
			}
			if all {
				t.Errorf("seed %d: work %d is not missed", seed, taker.Work)
			}
		}
		c, err := Explain(context.Background(), st, solver.Settings{})
		if err != nil || len(c.Takers) != len(takers) {
			t.Fatal(seed, err, len(c.Takers))
		}
		if c.WithTakers != nil && c.WithTakers.Has {
			if whole++; len(c.Conflict)+len(c.More) > 0 {
				t.Errorf("seed %d: %v clashes only for want of a taker", seed, c.Conflict)
			}
		} else if len(c.Conflict) > 0 {
			others++
		}
	}
	if missed < 5 || whole == 0 {
		t.Errorf("%d jobs missed a taker, %d were whole with one, %d clashed even so: too few to tell", missed, whole,
			others)
	}
}

// TestTakersByHand: a rim that only a work which nobody does would make good enough; one that
// is good as it is waits for nobody.
func TestTakersByHand(t *testing.T) {
	st := jobs.Tiny()
	st.Makers = nil
	const posts = 3
	st.Pieces = st.Pieces[jobs.Twisted : jobs.Twisted+1]
	st.Pieces[0].Fits = []int{jobs.Left}
	st.Pieces[0].Findings = []catalog.Finding{{Defect: jobs.Bent, Severity: catalog.Severe, Count: 1,
		Where: catalog.Face}}
	st.Slots = st.Slots[:1]
	st.Slots[0].Target.Redone = jobs.Given(true)
	takers, with := Takers(st)
	if len(takers) != 1 || takers[0].Work != posts || len(takers[0].Slots) != 1 || len(takers[0].Pieces) != 1 ||
		!fillable(with, 0) {
		t.Fatalf("%+v", takers)
	}
	st.Pieces = append(st.Pieces, jobs.TinyPiece("good"))
	st.Pieces[1].Fits = []int{jobs.Left}
	if takers, _ := Takers(st); len(takers) != 0 {
		t.Errorf("a slot that is filled waits for %+v", takers)
	}
}
