package ask

import (
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
)

// However far a price may be off, nobody is paid for plating: the low end of a range that
// is wider than the price is nothing.
func TestPriceMayFallToNothing(t *testing.T) {
	for _, cost := range []catalog.Cents{0, 1, 10_00, 80_00} {
		st := jobs.Tiny()
		st.Pieces[jobs.Twisted].Quotes = []catalog.Quote{{ID: "q", Plater: jobs.North, Level: "show",
			Work: catalog.WorkRepair, Cost: cost,
			Grade: jobs.Given(catalog.Centi(90_00)), Low: jobs.Given(catalog.Cents(200_00)),
			High: jobs.Given(catalog.Cents(300_00))}}
		c := jobs.Pick(choice.Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
		o := &InformationValue{Figure: choice.FigurePlating, Piece: jobs.Twisted, Plater: jobs.North}
		for _, way := range o.ofQuote(st, c, false) {
			turned := *c
			way.choice(&turned)
			if turned.Plate < 0 {
				t.Errorf("a price of %d may turn out to be %d", cost, turned.Plate)
			}
		}
	}
}
