package program

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/solver"
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

// sameRows says whether the rows are those of the program before, or they and more behind them: then
// columns may be taken over from it. A piece that comes in question no more may take a row with it.
func (p *Program) sameRows() bool {
	before, now := p.Options.base.Problem.Rows, p.Problem.Rows
	return len(before) <= len(now) && slices.EqualFunc(before, now[:len(before)],
		func(a, b solver.Row) bool { return a.Name == b.Name })
}

// choices works out the choices for a slot, changed as the options ask, and of which variant
// each is.
func (p *Program) choices(s int) (all []plan.Choice, variant []int32) {
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
	return p.beside(all)
}

// beside adds the changed copies of choices that the options ask for.
func (p *Program) beside(all []plan.Choice) ([]plan.Choice, []int32) {
	if len(p.Options.Beside) == 0 {
		return all, nil
	}
	of := map[[2]int][]int32{}
	for i, v := range p.Options.Beside {
		key := [2]int{v.Piece, v.Plater}
		of[key] = append(of[key], int32(i))
	}
	own := all
	variant := slices.Repeat([]int32{catalog.None}, len(own))
	for i := range own {
		for _, v := range of[[2]int{own[i].Piece, own[i].Plater}] {
			c := own[i]
			if p.Options.Beside[v].Change(&c); c.Plate != own[i].Plate || c.Breakage != own[i].Breakage ||
				c.Refused != own[i].Refused || c.Grade != own[i].Grade {
				choice.AddUp(&c)
				all, variant = append(all, c), append(variant, v)
			}
		}
	}
	return all, variant
}

// variantOf is the one of its choices, catalog.None where they are as they are.
func (b *slotChoices) variantOf(k, f int32) int32 {
	switch {
	case b.variant == nil:
		return catalog.None
	case f != catalog.None && b.variant[f] != catalog.None:
		return b.variant[f]
	}
	return b.variant[k]
}

// VariantOf is the variant that a column of a slot has in it, catalog.None where it has none.
func (p *Program) VariantOf(slot, column int) int {
	pair := p.Pairs[slot][column]
	return int(p.Slots[slot].variantOf(pair.K, pair.F))
}

// WithVariant are the columns that have one in them.
func (p *Program) WithVariant(v int) (all []solver.Pick) {
	for s := range p.Pairs {
		for c := range p.Pairs[s] {
			if p.VariantOf(s, c) == v {
				all = append(all, solver.Pick{Group: s, Column: c})
			}
		}
	}
	return all
}

// besideShare is the limit of the row of what stands beside the choices: of a piece that may be
// used in several lines one uses up its part of it.
const besideShare = 5040

// besideRow: of all that stands beside the choices a plan has one in it at most, but for the
// pieces of a bag, which may be in several lines.
func (p *Program) besideRow() {
	p.oneBeside = catalog.None
	if len(p.Options.Beside) > 0 {
		p.oneBeside = p.row(solver.Row{Name: "beside", Sense: solver.AtMost, Limit: besideShare})
	}
}

// besideCoef is what a line with a variant uses up.
func (p *Program) besideCoef(v int32) int64 {
	return besideShare / int64(choice.PieceCount(&p.State.Pieces[p.Options.Beside[v].Piece]))
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
