package risk

import (
	"math"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/internal/jobs"
	"brightset/model/plan"
)

// TestGuessesRise: over many runs an estimate of 100.00 stays within -10 and +35 in 100,
// comes out dearer in 7 of 9 and 8.33 dearer on average, as a triangle has it; a price with
// a range of its own stays within it, and a firm one where it is.
func TestGuessesRise(t *testing.T) {
	st := jobs.Tiny()
	st.Pieces[jobs.Twisted].Quotes = []catalog.Quote{{Firm: catalog.Firm}, {Firm: catalog.Estimate,
		Low: jobs.Given(catalog.Cents(95_00)), High: jobs.Given(catalog.Cents(107_00))}}
	c := func(quote int) *plan.Choice {
		return &plan.Choice{Slot: jobs.Left, Piece: jobs.Twisted, Plater: jobs.North, Plate: 100_00, Quote: quote}
	}
	s := &simulator{st: st, r: rand.New(rand.NewPCG(1, 2))}
	const runs = 20_000
	dearer, mean := 0, 0.0
	for range runs {
		s.factors()
		guess, ranged, firm := s.off(c(catalog.None), 100_00), s.off(c(1), 100_00), s.off(c(0), 100_00)
		if guess < 90_00 || guess > 135_00 || ranged < 95_00 || ranged > 107_00 || firm != 100_00 {
			t.Fatal(guess, ranged, firm)
		}
		if hours := s.worked(100_00); hours < 90_00 || hours > 135_00 {
			t.Fatal(hours)
		}
		if guess > 100_00 {
			dearer++
		}
		mean += float64(guess) / runs
	}
	if p := float64(dearer) / runs; math.Abs(p-7./9) > 0.015 || math.Abs(mean-108_33) > 40 {
		t.Errorf("dearer in %.3f, %.0f on average", p, mean)
	}
	st.Tables.Spread = catalog.Spread{} // nothing is off then
	if s.factors(); s.off(c(catalog.None), 100_00) != 100_00 || s.worked(50_00) != 50_00 {
		t.Error("off without a spread")
	}
	if got := choice.GuessSpread(st, 100_00); got != (choice.Span{}) {
		t.Error(got)
	}
}
