package model

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/internal/oracle"
)

// fewConcerned is a job of five to seven slots in which only the first two or three have
// anything to do with a row of their own: they are seen together, may fail with chances
// near 5.5 % and lie below the mean, while the others can't fail and lie on it or above.
// Such rows are told apart by the figures of few lines, which are near each other.
func fewConcerned(seed int64) *catalog.State {
	r := rand.New(rand.NewPCG(uint64(seed), 91))
	st := tinyState()
	first := st.Slots[0]
	st.Slots, st.Pieces, st.Bundles, st.Matches = nil, nil, nil, nil
	mean := randomFrom[catalog.Centi](r, 70_00, 90_00)
	completion, below, matched, slots := randomChance(r, 60), randomChance(r, 50), 2+r.IntN(2), 5+r.IntN(3)
	if below { // two below the mean, and one that makes up for them, are no more than half
		matched, slots = 2, 6+r.IntN(2)
	}
	for s := range slots {
		slot := first
		slot.ID, slot.Weight = fmt.Sprint("s", s), randomWeight(r)
		if below && s == matched && randomChance(r, 70) {
			slot.Weight = 100_00
		}
		slot.Rescue.V = randomFrom[catalog.Cents](r, 0, 900_00)
		slot.Target.FallbackFloor = given(catalog.Centi(100_00)) // nothing is held in reserve
		st.Slots = append(st.Slots, slot)
		count := 1 + r.IntN(2)
		switch {
		case s < matched:
			count += 5
		case s == matched:
			count = 3
		}
		for i := range count {
			p := tinyPiece(fmt.Sprintf("p%d-%d", s, i))
			p.Fits, p.Metal, p.Side = []int{s}, catalog.None, catalog.Shops
			p.Price, p.Grade = randomFrom[catalog.Cents](r, 1, 100_00), given(mean)
			switch {
			case s < matched:
				p.Grade.V += randomFrom[catalog.Centi](r, 0, 1)
				if below {
					p.Grade.V -= randomFrom[catalog.Centi](r, 1, 3)
				}
				if completion { // the surer, the dearer
					fails := randomFails(r)
					p.Chance = catalog.One - fails
					p.Price += catalog.Cents(max(0, 60_000-fails)) * catalog.Cents(r.IntN(4))
				}
			case s == matched:
				p.Grade.V += catalog.Centi(i) * randomFrom[catalog.Centi](r, 1, 9_00)
				p.Price += catalog.Cents(i) * 50_00
			}
			st.Pieces = append(st.Pieces, p)
		}
	}
	m := catalog.Match{ID: "seen together", GradeWithin: given(randomFrom[catalog.Centi](r, 0, 3))}
	for s := range matched {
		m.Slots = append(m.Slots, s)
	}
	st.Matches = []catalog.Match{m}
	if below {
		st.Job.Target.Mean = given(mean)
	}
	if completion { // what some lines take up together is all there is
		risk := int64(0)
		for s := range matched {
			if lines := oracle.Read(st).Lines(s); len(lines) > 0 {
				risk += lines[r.IntN(len(lines))].Risk
			}
		}
		edgeOfCompletion(r, st, risk)
	}
	return st
}

// TestFewConcerned: where few slots have to do with a row, the least total is that of the
// exhaustive search.
func TestFewConcerned(t *testing.T) {
	feasible, jobs := 0, campaign(150, 20_000)
	for seed := range int64(jobs) {
		t.Run(randomName(seed, 5, "few"), func(t *testing.T) {
			if _, ok := bruteSolve(t, fewConcerned(seed)); ok {
				feasible++
			}
		})
	}
	if feasible < jobs/3 {
		t.Errorf("only %d of %d jobs can be done", feasible, jobs)
	}
}
