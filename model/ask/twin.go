package ask

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
)

// twins are the slots that a slot could change places with, left and right of a car: the
// same is asked of both, the same pieces fit both alike, and no lock, ban or match tells
// them apart. What hangs and waits in the one can then hang and wait in the other: it
// costs the same, whatever any figure of any piece is.
func twins(st *catalog.State, slot int) (all []int) {
	for s := range st.Slots {
		if s != slot && twinSlots(st, slot, s) {
			all = append(all, s)
		}
	}
	return all
}

func twinSlots(st *catalog.State, a, b int) bool {
	s, t := &st.Slots[a], &st.Slots[b]
	if s.Quantity != t.Quantity || s.Weight != t.Weight || !agree(s.Area, t.Area) ||
		!agree(s.Rescue, t.Rescue) || !agree(s.RescueDays, t.RescueDays) || !agree(s.MaxBreakage, t.MaxBreakage) ||
		s.Bears != t.Bears || s.Service != t.Service || s.Keep != t.Keep {
		return false
	}
	x, y := &s.Target, &t.Target
	if !agree(x.Floor, y.Floor) || !agree(x.Mean, y.Mean) || !agree(x.Fresh, y.Fresh) || !agree(x.Redone, y.Redone) ||
		!agree(x.Lasting, y.Lasting) || !agree(x.FallbackFloor, y.FallbackFloor) {
		return false
	}
	for i := range st.Pieces {
		if p := &st.Pieces[i]; !fitsAlike(p, a, b) || !platedAlike(st, p, s, t) {
			return false
		}
	}
	for i := range st.Matches {
		if m := st.Matches[i].Slots; slices.Contains(m, a) != slices.Contains(m, b) {
			return false
		}
	}
	one := func(f *catalog.Filter) bool { return f.Slot == a || f.Slot == b }
	return !slices.ContainsFunc(st.Locks, func(l catalog.Lock) bool { return one(&l.Filter) }) &&
		!slices.ContainsFunc(st.Bans, func(l catalog.Ban) bool { return one(&l.Filter) })
}

// fitsAlike says whether a piece fits two slots in the same way, and hangs in neither.
func fitsAlike(p *catalog.Piece, a, b int) bool {
	if choice.FitsSlot(p, a) != choice.FitsSlot(p, b) || p.Stage == catalog.StageHung && (p.HungIn == a || p.HungIn == b) {
		return false
	}
	if choice.Untried(p, a) != choice.Untried(p, b) {
		return false
	}
	x, y := choice.Fitting(p, a), choice.Fitting(p, b)
	if x == nil || y == nil {
		return x == y
	}
	return x.Hours == y.Hours && x.Breakage == y.Breakage && x.Cap == y.Cap
}

func agree[T comparable](a, b catalog.Val[T]) bool { return a.Set == b.Set && a.V == b.V }

// platedAlike says whether every plater asks the same for a piece in two slots, whatever he asks by.
func platedAlike(st *catalog.State, p *catalog.Piece, s, t *catalog.Slot) bool {
	for i := range st.Platers {
		for l := range st.Platers[i].Levels {
			if level := &st.Platers[i].Levels[l]; !agree(level.PriceOf(p, s), level.PriceOf(p, t)) {
				return false
			}
		}
	}
	return true
}
