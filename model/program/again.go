package program

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

// Variant is another figure that the choices with one piece at one plater may have.
type Variant struct {
	Piece, Plater int
	Change        func(*plan.Choice)
}

// fresh says whether the choices for a slot have to be worked out; else they are those
// of the program before.
func (p *Program) fresh(s int) bool { return p.Options.base == nil || p.Options.differs(s) }

// sameLines says whether a slot has the lines that it has in the program before: its
// choices are the same, and what they are compared by.
func (p *Program) sameLines(s int) bool { return p.sameWants && !p.fresh(s) }

// choices works out the choices for a slot, changed as the options ask.
func (p *Program) choices(s int) []plan.Choice {
	var all []plan.Choice
	if base := p.Options.base; base != nil && base.State == p.State {
		all = slices.Clone(base.Choices[s])
	} else {
		all = choice.ChoicesFor(p.State, s)
	}
	if p.Options.Adjust != nil {
		for i := range all {
			p.Options.Adjust(&all[i])
			choice.AddUp(&all[i])
		}
	}
	return append(all, p.beside(all)...)
}

// beside gives the changed copies of choices that the options ask for.
func (p *Program) beside(own []plan.Choice) []plan.Choice {
	if len(p.Options.Beside) == 0 {
		return nil
	}
	of := map[[2]int][]*Variant{}
	for i := range p.Options.Beside {
		v := &p.Options.Beside[i]
		of[[2]int{v.Piece, v.Plater}] = append(of[[2]int{v.Piece, v.Plater}], v)
	}
	var all []plan.Choice
	for i := range own {
		for _, v := range of[[2]int{own[i].Piece, own[i].Plater}] {
			c := own[i]
			if v.Change(&c); c.Plate != own[i].Plate || c.Breakage != own[i].Breakage || c.Refused != own[i].Refused ||
				c.Grade != own[i].Grade {
				choice.AddUp(&c)
				all = append(all, c)
			}
		}
	}
	return all
}

// Again is the program of a state in which the choices with some pieces alone are
// others than in the state of this program.
func (p *Program) Again(st *catalog.State, opt Options, pieces ...int) *Program {
	differs := make([]bool, len(st.Slots))
	for _, piece := range pieces {
		for s := range differs {
			differs[s] = differs[s] || choice.FitsSlot(&st.Pieces[piece], s)
		}
	}
	own := p.Options
	own.Adjust, own.Beside, own.GiveUp = opt.Adjust, opt.Beside, opt.GiveUp
	own.base, own.differs = p, func(s int) bool { return differs[s] }
	return Compile(st, own)
}

// same says whether the same pieces are wanted by more than one.
func (w *wants) same(v *wants) bool {
	return slices.Equal(w.rows, v.rows) && slices.Equal(w.shared, v.shared) && slices.Equal(w.got, v.got) &&
		slices.Equal(w.boxes, v.boxes)
}
