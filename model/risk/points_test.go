package risk

import (
	"math"
	"math/rand/v2"
	"testing"

	"brightset/catalog"
)

// TestPoints: few points, in rising order, whose chances add up to one, and what is within
// each is what the whole distribution says.
func TestPoints(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	for range 300 {
		var sums []atom
		at, sum := catalog.Cents(rng.IntN(100_000)-50_000), 0.0
		for range 1 + rng.IntN(3000) {
			a := atom{rng.Float64(), at}
			sum += a.chance
			sums = append(sums, a)
			at += catalog.Cents(1 + rng.IntN(90))
		}
		for i := range sums {
			sums[i].chance /= sum
		}
		d := &Distribution{Step: 1, low: sums, high: sums}
		points := d.Points(100)
		if len(points) == 0 || len(points) > 100 {
			t.Fatalf("%d points", len(points))
		}
		all := 0.0
		for i, p := range points {
			if all += p.Chance; i > 0 && points[i-1].Cents >= p.Cents {
				t.Fatalf("%d after %d", p.Cents, points[i-1].Cents)
			}
			if math.Abs(p.Within-all) > 1e-9 || !isJust(d.Within(p.Cents), p.Within) {
				t.Fatalf("within %d: %v, the whole says %v", p.Cents, p.Within, d.Within(p.Cents))
			}
		}
		if math.Abs(all-1) > 1e-9 {
			t.Fatalf("chances add up to %v", all)
		}
	}
}
