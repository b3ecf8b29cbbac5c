package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// Lot is where a choice's piece gets its finish, or got it.
type Lot struct {
	Plater int    // catalog.None where no plater of ours does, or did
	Sent   bool   // it has gone; else it is the one that goes next
	Name   string // of a lot that has gone
	Back   bool   // the piece is back: its tone has been seen
}

// LotOf is the lot of a choice.
func LotOf(st *catalog.State, c *plan.Choice) Lot {
	l := Lot{Plater: PlatedBy(st, c)}
	if l.Plater == catalog.None || c.InLot() {
		return l
	}
	p := &st.Pieces[c.Piece]
	l.Sent, l.Name, l.Back = true, p.Sent.Lot, wasPlated(p)
	return l
}

// Drift is by how much the tones of two pieces may differ beyond what is reckoned: that of
// one plater's lots, unless it is one lot, or both pieces are back to be seen.
func Drift(st *catalog.State, a, b Lot) catalog.Centi {
	if a.Plater == catalog.None || a.Plater != b.Plater || a.Sent == b.Sent && a.Name == b.Name || a.Back && b.Back {
		return 0
	}
	return st.Platers[a.Plater].Drift
}
