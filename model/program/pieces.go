package program

import (
	"brightset/model/choice"
	"brightset/solver"
)

// TagPiece marks the row of a piece, by its key.
func TagPiece(key string) solver.Tag { return solver.Tag("piece " + key) }

// pieceRows, for every piece that the slots together could use more of than
// there are:
//
//	sum over slots of n [k or f is the piece] <= quantity
//
// A piece hangs in, or is held for, one place only. Within a slot k and f are
// two pieces already.
func (p *Program) pieceRows() {
	p.RowOf = map[int]int{}
	for _, piece := range p.wants.rows {
		key := p.State.Pieces[piece].Key()
		r := p.row(solver.Row{Name: "piece " + key, Sense: solver.AtMost,
			Limit: int64(choice.PieceCount(&p.State.Pieces[piece])), Tag: TagPiece(key)})
		p.RowOf[piece] = r
		p.count(piece, r)
	}
}

// count makes a row count how many of a piece the slots use.
func (p *Program) count(piece, row int) {
	for s := range p.State.Slots {
		p.use(s, piece, row, int64(choice.Needed(&p.State.Slots[s])))
	}
}

// use gives lines of a slot that use a piece, as k or f, a coefficient in a row.
func (p *Program) use(slot, piece, row int, coef int64) {
	p.uses[slot][piece] = append(p.uses[slot][piece], solver.Term{Row: row, Coef: coef})
}

// Usable says whether any line of the slot uses the piece.
func (p *Program) Usable(slot, piece int) bool {
	b := p.Slots[slot]
	for _, list := range [][]int32{b.planned, b.reserve} {
		for _, i := range list {
			if b.choices[i].Piece == piece {
				return true
			}
		}
	}
	return false
}
