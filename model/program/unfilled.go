package program

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// TargetWords says what a target asks of one slot, "" if nothing.
func TargetWords(t *catalog.Target) string {
	var text []string
	if t.Floor.Set && t.Floor.V > 0 {
		text = append(text, "grade "+plan.Centi(t.Floor.V)+" or better")
	}
	switch {
	case t.Redone.V:
		text = append(text, "refinished")
	case t.Fresh.V:
		text = append(text, "freshly finished")
	}
	if t.Lasting.V {
		text = append(text, "no fault that goes on growing")
	}
	return strings.Join(text, ", ")
}

// Unfilled is a slot that no line fills, and why each thing that might be done
// for it is out. Of a choice that is itself admitted but makes no line, Why says
// what its lines lack.
type Unfilled struct {
	Slot int
	Outs []choice.Exclusion
}

// Unfilled gives the slots without any line, in their order.
func (p *Program) Unfilled() []Unfilled {
	var list []Unfilled
	for s := range p.Pairs {
		if len(p.Pairs[s]) > 0 {
			continue
		}
		list = append(list, Unfilled{Slot: s, Outs: p.OutsOf(s)})
	}
	return list
}

// OutsOf gives what is out for a slot: the choices that have no line, and what
// can't be done at all.
func (p *Program) OutsOf(s int) []choice.Exclusion {
	in := make([]bool, len(p.Choices[s]))
	for _, pair := range p.Pairs[s] {
		in[pair.K] = true
	}
	var outs []choice.Exclusion
	for i := range p.Choices[s] {
		if c := &p.Choices[s][i]; !in[i] {
			outs = append(outs, choice.Exclusion{Slot: s, Piece: c.Piece, Work: c.Work, Plater: c.Plater,
				Level: c.Level,
				Why:   whyNoLine(p.State, c)})
		}
	}
	return append(outs, choice.ExclusionsFor(p.State, s)...)
}

// whyNoLine is why a choice of a slot without lines is out.
func whyNoLine(st *catalog.State, c *plan.Choice) string {
	if reasons := Admit(st, c, Planned); len(reasons) > 0 {
		return reasons[0].Why
	}
	if c.Fails == catalog.One {
		return "it is certain to fail and there is nothing to fall back on"
	}
	return fmt.Sprintf("it takes %d days, and if it fails there is no time left for anything else", c.Days)
}

// best is how near what there is comes: the choice of the highest grade, of equals the
// first.
func (u *Unfilled) best(st *catalog.State) plan.Unfilled {
	out := plan.Unfilled{Slot: u.Slot}
	if len(u.Outs) == 0 {
		return out
	}
	all := choice.ChoicesFor(st, u.Slot)
	for i := range all {
		if out.Best == nil || all[i].Grade > out.Best.Grade {
			out.Best = &all[i]
		}
	}
	if out.Best != nil {
		out.Hung, out.Why = out.Best.Piece == st.HungIn(u.Slot), whyNoLine(st, out.Best)
	}
	return out
}

// words says what a piece for the slot would have to be like, and how near the best
// of those there come.
func (u *Unfilled) words(st *catalog.State, near *plan.Unfilled) string {
	slot := &st.Slots[u.Slot]
	need := TargetWords(&slot.Target)
	if slot.MaxBreakage.Set {
		need += fmt.Sprintf(", breaking in at most %s of cases", plan.Percent(slot.MaxBreakage.V))
	}
	if slot.Bears {
		need += ", nothing cracked, thinned or mended, for a hand or a load hangs on it"
	}
	if st.Job.WithinDays.Set {
		need += fmt.Sprintf(", with time for a rescue within %d days", st.Job.WithinDays.V)
	}
	if need = strings.TrimPrefix(need, ", "); need != "" {
		need = "; it takes " + need
	}
	if len(u.Outs) == 0 {
		return fmt.Sprintf("%s: no piece fits it%s", slot.Name, need)
	}
	best := near.Best
	text := fmt.Sprintf("%s: nothing that fits it will do%s", slot.Name, need)
	switch {
	case near.Hung:
		text = fmt.Sprintf("%s: %s hangs there%s; it reaches grade %s (%s)", slot.Name, plan.PieceCalled(st, best.Piece),
			need, plan.Centi(best.Grade), near.Why)
	case best != nil:
		text += fmt.Sprintf("; the best there is, %s, reaches grade %s (%s)", plan.Told(st, best),
			plan.Centi(best.Grade), near.Why)
	default:
		first := &u.Outs[0]
		text += fmt.Sprintf("; of %s: %s", plan.PieceCalled(st, first.Piece), first.Why)
	}
	return text
}
