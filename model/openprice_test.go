package model

import (
	"testing"

	"brightset/catalog"
)

// However far a price may be off, nobody is paid for plating: the low end of a range that
// is wider than the price is nothing.
func TestPriceMayFallToNothing(t *testing.T) {
	for _, cost := range []catalog.Cents{0, 1, 10_00, 80_00} {
		st := tinyState()
		st.Pieces[twisted].Quotes = []catalog.Quote{{ID: "q", Plater: north, Level: "show", Work: catalog.WorkRepair, Cost: cost,
			Grade: given(catalog.Centi(90_00)), Low: given(catalog.Cents(200_00)), High: given(catalog.Cents(300_00))}}
		c := pick(Choices(st)[left], twisted, catalog.WorkRepair, north, "show")
		o := &FindOut{Figure: FigurePlating, Piece: twisted, Plater: north}
		for _, way := range o.ofQuote(st, c, false) {
			turned := *c
			way.choice(&turned)
			if turned.Plate < 0 {
				t.Errorf("a price of %d may turn out to be %d", cost, turned.Plate)
			}
		}
	}
}
