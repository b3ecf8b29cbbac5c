package choice

import (
	"slices"
	"sync/atomic"

	"brightset/catalog"
	"brightset/model/plan"
)

// Exclusion says why there is no choice of some work on a piece for a slot. Work is
// "" where nothing at all can be done with the piece; Plater and Level are
// catalog.None and "" where they don't matter.
type Exclusion struct {
	Slot, Piece int
	Work        string
	Plater      int
	Level       string
	Why         string
	Fault       string // Why for somebody who has no files to write in; "": Why says nothing of them
}

// Choices gives everything that can be done to fill each slot, before any rule
// of the target. Per slot the pieces come in the state's order; per piece as-is,
// clean, then the platers in order, each with his quotes or else his levels.
func Choices(st *catalog.State) [][]plan.Choice {
	all := make([][]plan.Choice, len(st.Slots))
	for s := range st.Slots {
		all[s] = ChoicesFor(st, s)
	}
	return all
}

// ChoicesFor gives what can be done to fill one slot.
func ChoicesFor(st *catalog.State, slot int) []plan.Choice {
	Derived.Add(1)
	g := deriver{st: st, slot: slot}
	g.run()
	return g.choices
}

// Derived counts the slots that choices were worked out for: it is what asking again
// costs most, and tests keep it down.
var Derived atomic.Int64

// Exclusions gives per slot, in the order of Choices, why a piece that fits it can't be
// used there as it is, cleaned, or plated by a plater at a level.
func Exclusions(st *catalog.State) [][]Exclusion {
	all := make([][]Exclusion, len(st.Slots))
	for s := range st.Slots {
		all[s] = ExclusionsFor(st, s)
	}
	return all
}

// ExclusionsFor gives those of one slot.
func ExclusionsFor(st *catalog.State, slot int) []Exclusion {
	g := deriver{st: st, slot: slot}
	g.run()
	return g.outs
}

// deriver collects what can be done for one slot, and what can't.
type deriver struct {
	st      *catalog.State
	slot    int
	choices []plan.Choice
	outs    []Exclusion
}

func (g *deriver) run() {
	hung := g.st.HungIn(g.slot)
	for i := range g.st.Pieces {
		p := &g.st.Pieces[i]
		if !FitsSlot(p, g.slot) {
			continue
		}
		if n := Needed(&g.st.Slots[g.slot]); PieceCount(p) < n {
			g.out(Exclusion{Piece: i, Plater: catalog.None, Why: tooFew(g.st, g.slot, i, n)})
			continue
		}
		if why := standing(g.st, g.slot, i, hung); why != "" {
			g.out(Exclusion{Piece: i, Plater: catalog.None, Why: why})
			continue
		}
		if p.AtPlater() {
			g.atPlater(i)
			continue
		}
		if p.Bare() {
			g.out(Exclusion{Piece: i, Work: catalog.WorkAsIs, Plater: catalog.None, Why: "it is stripped"})
		} else {
			g.asIs(i)
			if hung != i {
				g.clean(i)
			}
		}
		if hung == i {
			continue
		}
		for q := range g.st.Platers {
			g.quotes(i, q)
			if !hasQuote(g.st, p, q) {
				g.levels(i, q)
			}
		}
	}
}

// add turns a draft into a choice of the slot.
func (g *deriver) add(piece int, d draft) {
	d.fit(g.st, g.slot, piece)
	g.choices = append(g.choices, d.choice(g.st, g.slot, piece))
}

func (g *deriver) out(o Exclusion) {
	o.Slot = g.slot
	g.outs = append(g.outs, o)
}

// FitsSlot says whether a piece goes in a slot, as it is or by handwork.
func FitsSlot(p *catalog.Piece, slot int) bool {
	return slices.Contains(p.Fits, slot) || Fitting(p, slot) != nil
}

// hasQuote says whether a plater has named a price for a piece that still stands.
func hasQuote(st *catalog.State, p *catalog.Piece, plater int) bool {
	for i := range p.Quotes {
		if p.Quotes[i].Plater == plater && overtaken(st, p, &p.Quotes[i]) == "" {
			return true
		}
	}
	return false
}

// Needed is the number of pieces a slot takes.
func Needed(s *catalog.Slot) int { return max(1, s.Quantity) }

// PieceCount is the number of identical pieces in the bag.
func PieceCount(p *catalog.Piece) int { return max(1, p.Quantity) }
