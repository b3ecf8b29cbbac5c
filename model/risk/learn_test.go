package risk

import (
	"math"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
)

func near(t *testing.T, source string, got, want, by float64) {
	t.Helper()
	if math.Abs(got-want) > by {
		t.Errorf("%s: got %v, published %v", source, got, want)
	}
}

func TestSmallSamples(t *testing.T) {
	// rule of succession, (r+1)/(n+2): textbooks
	near(t, "8 of 8", Believe(8, 8, 0.5, 2).Mean(), 0.9, 1e-12)
	near(t, "no data", Believe(0, 0, 0.5, 2).Mean(), 0.5, 1e-12)
	// Jeffreys, Beta(1/2+k, 1/2+n-k): course notes
	near(t, "0 of 10, Jeffreys", Believe(0, 10, 0, 0).Mean(), 0.04545, 5e-6)
	// with a uniform prior 29 clean runs show at 95 % a reliability of 90.4966 %
	low, _ := Believe(29, 29, 0.5, 2).Interval(0.90)
	near(t, "29 clean runs, uniform prior", low, 0.904966, 5e-6)
}

// TestCalibration: over many shops whose true rates are drawn from the prior, the
// intervals of four in five hold the truth in 75 to 85 of a hundred.
func TestCalibration(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	const mean, strength = 0.08, 20.0
	held, shops := 0, 4000
	for range shops {
		truth := betaDraw(r, strength*mean, strength*(1-mean))
		n, k := 5+r.IntN(60), 0
		for range n {
			if r.Float64() < truth {
				k++
			}
		}
		if low, high := Believe(k, n, mean, strength).Interval(0.8); low <= truth && truth <= high {
			held++
		}
	}
	if share := float64(held) / float64(shops); share < 0.75 || share > 0.85 {
		t.Errorf("the intervals hold the truth in %.1f %%", 100*share)
	}
}

// betaDraw draws from a beta distribution by two gamma sums of its own.
func betaDraw(r *rand.Rand, a, b float64) float64 {
	x, y := gammaDraw(r, a), gammaDraw(r, b)
	return x / (x + y)
}

// gammaDraw is the method of Marsaglia and Tsang (from memory).
func gammaDraw(r *rand.Rand, a float64) float64 {
	if a < 1 {
		return gammaDraw(r, a+1) * math.Pow(r.Float64(), 1/a)
	}
	d := a - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.NormFloat64()
		v := math.Pow(1+c*x, 3)
		if v > 0 && math.Log(r.Float64()) < 0.5*x*x+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}

// TestRatesRecovered: a shop whose pot metal breaks three times as often as the built-in
// value, and one of whose platers breaks twice as often as the other, finds both out.
func TestRatesRecovered(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 3))
	start := float64(catalog.StartingBases()["pot metal"]) / 1e6
	var all []Experience
	for i := range 6000 {
		truth := 3 * start
		x := Experience{Metal: "pot metal", Work: catalog.WorkReplate, Plater: "careful", Predicted: start,
			Agreed: 100_00, Named: true, PaidKnown: true, Paid: catalog.Cents(100_00 * (1.1 + 0.05*r.NormFloat64())),
			Promised: 30, Took: 34 + r.IntN(5), TookKnown: true, GradePromised: 90_00, Grade: 88_00, GradeKnown: true}
		if i%3 == 0 {
			x.Plater, truth = "rough", 2*truth
		}
		if x.Broke = r.Float64() < truth; x.Broke {
			x.PaidKnown, x.TookKnown, x.GradeKnown = false, false, false
		}
		all = append(all, x)
	}
	l := Learn(all, 20)
	whole := l.Metals[0]
	// a third of the pieces break at 6 times, the rest at 3 times the start: 4 times
	if got := float64(whole.Base) / 1e6 / start; math.Abs(got-4) > 0.4 {
		t.Errorf("the metal breaks %.2f times as often, want 4", got)
	}
	var careful, rough PlaterRate
	for _, p := range l.Platers {
		if p.Plater == "careful" {
			careful = p
		} else {
			rough = p
		}
	}
	if math.Abs(rough.Factor/careful.Factor-2) > 0.3 {
		t.Errorf("factors %v and %v", rough.Factor, careful.Factor)
	}
	if math.Abs(careful.Ratio-1.1) > 0.01 || careful.RatioLow > 1.1 || careful.RatioHigh < 1.1 ||
		math.Abs(careful.Late-6) > 0.2 || math.Abs(careful.Grade+2) > 1e-9 {
		t.Errorf("%+v", careful)
	}
}

// TestRefusedAreNotTried: of a thousand pieces half are sent back after stripping, and of the
// other half as many break as were expected; so neither the metal nor the plater breaks more or
// less than that, however many were sent back. Where all were, nothing is learnt of breaking.
func TestRefusedAreNotTried(t *testing.T) {
	start := catalog.StartingBases()["pot metal"]
	var all []Experience
	for i := range 1000 {
		all = append(all, Experience{Metal: "pot metal", Work: catalog.WorkReplate, Plater: "north", Predicted: 0.1,
			PredictedRefused: 0.5, Refused: i%2 == 0, Broke: i%20 == 1})
	}
	l := Learn(all, 20)
	whole, north := l.Metals[0], l.Platers[0]
	if whole.Base != start || math.Abs(whole.Mean-0.1) > 1e-9 || math.Abs(whole.Predicted-50) > 1e-9 {
		t.Errorf("base %d, it was %d; %v expected, breakage %v", whole.Base, start, whole.Predicted, whole.Mean)
	}
	if math.Abs(north.Factor-1) > 1e-9 || north.Tried() != 500 || whole.Tried() != 500 {
		t.Errorf("%+v", north)
	}
	none := Learn(all[:1], 20)
	if m := none.Metals[0]; m.Base != start || math.Abs(m.Mean-0.1) > 1e-9 || none.Platers[0].Factor != 1 {
		t.Errorf("of one that was sent back: %+v", m)
	}
}

// TestThin: where there are few of a work, the metal's outcomes speak for it.
func TestThin(t *testing.T) {
	var all []Experience
	for i := range 40 {
		work := catalog.WorkReplate
		if i < 4 {
			work = catalog.WorkRepair
		}
		all = append(all, Experience{Metal: "brass", Work: work, Plater: "p", Predicted: 0.01, Broke: i%10 == 0})
	}
	l := Learn(all, 20)
	for _, m := range l.Metals {
		if m.Pooled != (m.Work == catalog.WorkRepair) {
			t.Errorf("%+v", m)
		}
		if m.Pooled && m.Mean != l.Metals[0].Mean {
			t.Error("few of a work don't take the metal's rate")
		}
	}
	if l := Learn(nil, 20); l.Count != 0 || len(l.Metals) != 0 {
		t.Error("something is learnt from nothing")
	}
}

// TestSpreadLearnt: with ten open prices or more a plater's guesses are as far off as those
// were; of twenty the lowest and the highest are left out. A bag has one price.
func TestSpreadLearnt(t *testing.T) {
	of := func(paid ...catalog.Cents) PlaterRate {
		var all []Experience
		for _, p := range paid {
			all = append(all, Experience{Plater: "p", Guessed: 100_00, Paid: p, PaidKnown: true, Count: 36})
		}
		firm := Experience{Plater: "p", Agreed: 100_00, Named: true, Paid: 900_00, PaidKnown: true}
		broke := Experience{Plater: "p", Guessed: 100_00, Broke: true}
		return Learn(append(all, firm, broke), 20).Platers[0]
	}
	paid := []catalog.Cents{100_00, 98_00, 96_00, 110_00, 104_00, 118_00, 100_00, 107_00, 122_00}
	if r := of(paid...); r.SpreadKnown() || r.GuessN != 9 {
		t.Errorf("nine are enough: %+v", r)
	}
	ten := append(paid, 101_00)
	if r := of(ten...); !r.SpreadKnown() || math.Abs(r.Low-0.04) > 1e-9 || math.Abs(r.High-0.22) > 1e-9 {
		t.Errorf("%+v", r)
	}
	if r := of(append(append(ten[:9:9], ten[:9]...), 40_00, 300_00)...); math.Abs(r.Low-0.04) > 1e-9 ||
		math.Abs(r.High-0.22) > 1e-9 {
		t.Errorf("of twenty: %+v", r)
	}
	if r := of(); r.Low != 0 || r.High != 0 || r.SpreadKnown() {
		t.Errorf("%+v", r)
	}
}
