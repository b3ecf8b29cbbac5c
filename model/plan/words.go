package plan

import (
	"fmt"
	"strings"

	"brightset/catalog"
)

// Centi writes a grade or tone without needless zeros: 62, 62.5, -0.25.
func Centi(v catalog.Centi) string {
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	return sign + trimZeros(fmt.Sprintf("%d.%02d", v/100, v%100))
}

// Percent writes a chance in percent without needless zeros: 3.25%.
func Percent(p catalog.Micro) string {
	return trimZeros(fmt.Sprintf("%d.%04d", p/10_000, p%10_000)) + "%"
}

func trimZeros(s string) string { return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") }

// PieceName is a piece's id as written, or its key where the id stands in both
// files.
func PieceName(st *catalog.State, piece int) string {
	return st.PieceLabel(piece)
}

// Label names a choice in a word or two: piece, work, and for plated work the
// plater and level.
func Label(st *catalog.State, c *Choice) string {
	s := PieceName(st, c.Piece) + " " + c.Work
	if c.Plated() {
		s += " " + st.Platers[c.Plater].ID
		if c.Level != "" {
			s += " " + c.Level
		}
		if c.Quote != catalog.None {
			s += " quote " + st.Pieces[c.Piece].Quotes[c.Quote].ID
		}
	}
	return s
}
