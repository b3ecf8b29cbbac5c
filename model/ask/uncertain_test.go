package ask

import (
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
)

// TestPricesRiseMoreOften: a guess falls in 1 case of 9 and rises in 7 of 18; a price that
// may go as far either way does either in a quarter.
func TestPricesRiseMoreOften(t *testing.T) {
	st := jobs.Tiny()
	o := &InformationValue{Figure: choice.FigurePlating, Piece: jobs.Twisted, Plater: jobs.North}
	c := jobs.Pick(choice.Choices(st)[jobs.Left], jobs.Twisted, catalog.WorkRepair, jobs.North, "show")
	c.Quote, c.Plate = catalog.None, 100_00
	ways := o.ofQuote(st, c, false)
	if ways[0].likely != 111_111 || ways[0].likely+ways[1].likely != catalog.One/2 {
		t.Errorf("falls in %d, rises in %d", ways[0].likely, ways[1].likely)
	}
	for i, want := range []catalog.Cents{90_00, 135_00} {
		turned := *c
		if ways[i].choice(&turned); turned.Plate != want {
			t.Errorf("%d, want %d", turned.Plate, want)
		}
	}
	if falls, rises := fallsAndRises(choice.Span{Below: 7, Above: 7}); falls != quarter || rises != quarter {
		t.Error(falls, rises)
	}
}

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
