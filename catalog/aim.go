package catalog

// AimedAt gives a copy of the state whose job asks for another target, as if its file
// named that one and nothing else: its mean counts for the set, and every slot that
// names no target of its own follows, its single keys over it.
func (s *State) AimedAt(t Target) *State {
	out := s.Clone()
	out.Job.Target = t
	for i := range out.Slots {
		slot := &out.Slots[i]
		if slot.Own.Named {
			continue
		}
		slot.Target = t
		slot.Target.override(slot.Own.Keys)
		slot.Target = ofSlot(slot.Target, slot.Own)
	}
	return out
}

// override puts what is set in another target over this one. What need not be freshly
// finished need not be refinished either, unless that is said as well.
func (t *Target) override(given Target) {
	if given.Fresh.Set && !given.Fresh.V && !given.Redone.Set {
		given.Redone = given.Fresh
	}
	over(&t.Floor, given.Floor)
	over(&t.Mean, given.Mean)
	over(&t.Fresh, given.Fresh)
	over(&t.Redone, given.Redone)
	over(&t.Lasting, given.Lasting)
	over(&t.FallbackFloor, given.FallbackFloor)
}

// ofSlot is a target as a slot's: it has no mean, and it is not the named one any more
// if keys of the slot's lie over it.
func ofSlot(t Target, own OwnGoals) Target {
	t.Mean = Val[Centi]{}
	if own.Keys != (Target{}) {
		t.Name = ""
	}
	return t
}
