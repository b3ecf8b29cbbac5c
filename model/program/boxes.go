package program

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/solver"
)

// moreBoxes are boxes beside the first of a piece that is sold by the box: all of them are
// bought, or none.
type moreBoxes struct{ piece, boxes int }

// findBoxes gives the sizes 1, 2, 4 ... in which boxes are bought beside the first, so many
// as hold what the slots can use, most of each piece: every number of boxes is a sum of
// them in one way.
func findBoxes(st *catalog.State, most []int) (all []moreBoxes) {
	for i := range st.Pieces {
		b := boxOf(st, i)
		if b == nil {
			continue
		}
		more := b.Count(min(most[i], choice.PieceCount(&st.Pieces[i]))) - 1
		for size := 1; size <= more; size *= 2 {
			all = append(all, moreBoxes{i, size})
		}
	}
	return all
}

// boxOf is the box that a piece is sold by, nil where it is not.
func boxOf(st *catalog.State, piece int) *catalog.Bundle {
	if b := st.Pieces[piece].Bundle; b != catalog.None && st.Bundles[b].Box > 0 {
		return &st.Bundles[b]
	}
	return nil
}

// boxSwitch is the switch of boxes beside the first; they follow the bundles.
func (p *Program) boxSwitch(i int) int { return p.BundleSwitch(len(p.State.Bundles)) + i }

// boxRows, for every piece sold by the box of which the slots together could use more than a
// box holds, with a switch y for every number of boxes beside the first that may be on:
//
//	sum over slots of n [k or f is the piece] - box (sum of boxes y) <= box
//
// Boxes are bought whole, as many as hold all that is used.
func (p *Program) boxRows() {
	p.BoxRowOf = map[int]int{}
	for _, m := range p.wants.boxes {
		b := boxOf(p.State, m.piece)
		name, tag := "boxes of "+p.State.Pieces[m.piece].Key(), TagBundle(b.ID)
		r, known := p.BoxRowOf[m.piece]
		if !known {
			r = p.row(solver.Row{Name: name, Sense: solver.AtMost, Limit: int64(b.Box)})
			p.BoxRowOf[m.piece] = r
			p.count(m.piece, r)
		}
		p.Problem.Switches = append(p.Problem.Switches, solver.Switch{Name: fmt.Sprintf("%d more %s", m.boxes, name),
			Fixed: int64(m.boxes) * int64(b.Price), Voluntary: true, Tag: tag,
			Terms: []solver.Term{{Row: r, Coef: -int64(m.boxes) * int64(b.Box)}}})
	}
}

// BundleCharge is what an answer pays for a bundle, or for all boxes of a piece.
func (p *Program) BundleCharge(res *solver.Result, bundle int) (cents catalog.Cents) {
	for _, h := range p.bundleSwitchesOf(bundle) {
		if res.On[h] {
			cents += catalog.Cents(res.Charge[h])
		}
	}
	return cents
}

// bundleSwitchesOf are the switch of a bundle and those of more boxes of it.
func (p *Program) bundleSwitchesOf(bundle int) []int {
	all := []int{p.BundleSwitch(bundle)}
	for i, m := range p.wants.boxes {
		if p.State.Pieces[m.piece].Bundle == bundle {
			all = append(all, p.boxSwitch(i))
		}
	}
	return all
}

// countRows are the rows that count how many of a piece are used, all slots together.
func (p *Program) countRows(piece int) (rows []int) {
	for _, of := range []map[int]int{p.RowOf, p.BoxRowOf, p.givenRow} {
		if r, ok := of[piece]; ok {
			rows = append(rows, r)
		}
	}
	slices.Sort(rows)
	return rows
}
