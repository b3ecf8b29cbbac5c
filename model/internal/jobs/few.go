package jobs

import (
	"fmt"
	"math/rand/v2"

	"brightset/catalog"
	"brightset/model/internal/oracle"
)

// FewConcerned is a job of five to seven slots in which only the first two or three have
// anything to do with a row of their own: they are seen together, may fail with chances
// near 5.5 % and lie below the mean, while the others can't fail and lie on it or above.
// Such rows are told apart by the figures of few lines, which are near each other.
func FewConcerned(seed int64) *catalog.State {
	r := rand.New(rand.NewPCG(uint64(seed), 91))
	st := Tiny()
	first := st.Slots[0]
	st.Slots, st.Pieces, st.Bundles, st.Matches = nil, nil, nil, nil
	mean := Between[catalog.Centi](r, 70_00, 90_00)
	completion, below, matched, slots := Chance(r, 60), Chance(r, 50), 2+r.IntN(2), 5+r.IntN(3)
	if below { // two below the mean, and one that makes up for them, are no more than half
		matched, slots = 2, 6+r.IntN(2)
	}
	for s := range slots {
		slot := first
		slot.ID, slot.Weight = fmt.Sprint("s", s), Weight(r)
		if below && s == matched && Chance(r, 70) {
			slot.Weight = 100_00
		}
		slot.Rescue.V = Between[catalog.Cents](r, 0, 900_00)
		slot.Target.FallbackFloor = Given(catalog.Centi(100_00)) // nothing is held in reserve
		st.Slots = append(st.Slots, slot)
		count := 1 + r.IntN(2)
		switch {
		case s < matched:
			count += 5
		case s == matched:
			count = 3
		}
		for i := range count {
			p := TinyPiece(fmt.Sprintf("p%d-%d", s, i))
			p.Fits, p.Metal, p.Side = []int{s}, catalog.None, catalog.Shops
			p.Price, p.Grade = Between[catalog.Cents](r, 1, 100_00), Given(mean)
			switch {
			case s < matched:
				p.Grade.V += Between[catalog.Centi](r, 0, 1)
				if below {
					p.Grade.V -= Between[catalog.Centi](r, 1, 3)
				}
				if completion { // the surer, the dearer
					fails := FailChance(r)
					p.Chance = catalog.One - fails
					p.Price += catalog.Cents(max(0, 60_000-fails)) * catalog.Cents(r.IntN(4))
				}
			case s == matched:
				p.Grade.V += catalog.Centi(i) * Between[catalog.Centi](r, 1, 9_00)
				p.Price += catalog.Cents(i) * 50_00
			}
			st.Pieces = append(st.Pieces, p)
		}
	}
	m := catalog.Match{ID: "seen together", GradeWithin: Given(Between[catalog.Centi](r, 0, 3))}
	for s := range matched {
		m.Slots = append(m.Slots, s)
	}
	st.Matches = []catalog.Match{m}
	if below {
		st.Job.Target.Mean = Given(mean)
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
