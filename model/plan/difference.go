package plan

// Difference is a slot that two plans fill differently: by another choice, or by
// the same one with something else in reserve.
type Difference struct {
	Slot     int
	Was, Now *Line
}

// SameChoice says whether only what is held in reserve differs.
func (d *Difference) SameChoice() bool { return SameChoice(d.Was.Choice, d.Now.Choice) }

// Differences lists the slots that two plans of one state fill differently, in
// the order of the slots. The plans may come from different programs.
func Differences(was, now *Plan) []Difference {
	var out []Difference
	for i := range was.Lines {
		a, b := &was.Lines[i], &now.Lines[i]
		if !SameChoice(a.Choice, b.Choice) || !SameChoice(a.Fallback, b.Fallback) {
			out = append(out, Difference{a.Slot, a, b})
		}
	}
	return out
}

// WithoutSwaps leaves out of differences those of two slots whose choices, with what they
// hold in reserve, only change places, and cost the same in all.
func WithoutSwaps(all []Difference) []Difference {
	swapped := make([]bool, len(all))
	for i := range all {
		for j := i + 1; j < len(all) && !swapped[i]; j++ {
			if !swapped[j] && changePlaces(&all[i], &all[j]) {
				swapped[i], swapped[j] = true, true
			}
		}
	}
	var out []Difference
	for i := range all {
		if !swapped[i] {
			out = append(out, all[i])
		}
	}
	return out
}

func changePlaces(a, b *Difference) bool {
	return !a.SameChoice() && !b.SameChoice() &&
		SameChoice(a.Now.Choice, b.Was.Choice) && SameChoice(b.Now.Choice, a.Was.Choice) &&
		SameChoice(a.Now.Fallback, b.Was.Fallback) && SameChoice(b.Now.Fallback, a.Was.Fallback) &&
		a.Now.Expected+b.Now.Expected == a.Was.Expected+b.Was.Expected
}

// SameChoice says whether two choices for one slot are the same piece, work, doer
// and quote. Either may be nil, for none.
func SameChoice(a, b *Choice) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Piece == b.Piece && a.Work == b.Work && a.Plater == b.Plater && a.Level == b.Level && a.Quote == b.Quote
}
