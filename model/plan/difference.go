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

// SameChoice says whether two choices for one slot are the same piece, work, doer
// and quote. Either may be nil, for none.
func SameChoice(a, b *Choice) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Piece == b.Piece && a.Work == b.Work && a.Plater == b.Plater && a.Level == b.Level && a.Quote == b.Quote
}
