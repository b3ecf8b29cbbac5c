package model

import (
	"fmt"

	"brightset/catalog"
)

// Unfilled is a slot that no line fills, and why each thing that might be done
// for it is out. Of a choice that is itself admitted but makes no line, Why says
// what its lines lack.
type Unfilled struct {
	Slot int
	Outs []Out
}

// Unfilled gives the slots without any line, in their order.
func (p *Program) Unfilled() []Unfilled {
	var list []Unfilled
	var outs []Out
	for s := range p.Pairs {
		if len(p.Pairs[s]) > 0 {
			continue
		}
		if outs == nil {
			outs = Outs(p.State)
		}
		u := Unfilled{Slot: s}
		for i := range p.Choices[s] {
			c := &p.Choices[s][i]
			u.Outs = append(u.Outs, Out{Slot: s, Piece: c.Piece, Work: c.Work, Plater: c.Plater, Level: c.Level, Why: whyNoLine(p.State, c)})
		}
		for _, o := range outs {
			if o.Slot == s {
				u.Outs = append(u.Outs, o)
			}
		}
		list = append(list, u)
	}
	return list
}

// whyNoLine is why a choice of a slot without lines is out.
func whyNoLine(st *catalog.State, c *Choice) string {
	if reasons := Admit(st, c, Planned); len(reasons) > 0 {
		return reasons[0].Why
	}
	if c.Fails == catalog.One {
		return "it is certain to fail and there is nothing to fall back on"
	}
	return fmt.Sprintf("it takes %d days, and if it fails there is no time left for anything else", c.Days)
}

// words gives one sentence per slot and one per thing that is out.
func (u *Unfilled) words(st *catalog.State) []string {
	slot := st.Slots[u.Slot].ID
	if len(u.Outs) == 0 {
		return []string{fmt.Sprintf("slot %q: no piece fits it", slot)}
	}
	lines := []string{fmt.Sprintf("slot %q: nothing that fits it is allowed", slot)}
	for _, o := range u.Outs {
		lines = append(lines, fmt.Sprintf("slot %q: %s: %s", slot, o.label(st), o.Why))
	}
	return lines
}

// label names what is out: the piece, and the work, plater and level if any.
func (o *Out) label(st *catalog.State) string {
	s := PieceName(st, o.Piece)
	if o.Work != "" {
		s += " " + o.Work
	}
	if o.Plater != catalog.None {
		s += " " + st.Platers[o.Plater].ID
	}
	if o.Level != "" {
		s += " " + o.Level
	}
	return s
}
