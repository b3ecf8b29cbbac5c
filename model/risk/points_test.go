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
		d := &Distribution{From: catalog.Cents(rng.IntN(100_000) - 50_000), Step: catalog.Cents(1 + rng.IntN(30))}
		sum := 0.0
		for range 1 + rng.IntN(3000) {
			c := 0.0
			if rng.IntN(3) == 0 {
				c = rng.Float64()
			}
			d.Chance = append(d.Chance, c)
			sum += c
		}
		if sum == 0 {
			continue
		}
		for i := range d.Chance {
			d.Chance[i] /= sum
		}
		points := d.Points(100)
		if len(points) == 0 || len(points) > 100 {
			t.Fatalf("%d points", len(points))
		}
		all := 0.0
		for i, p := range points {
			if all += p.Chance; i > 0 && points[i-1].Cents >= p.Cents {
				t.Fatalf("%d after %d", p.Cents, points[i-1].Cents)
			}
			if math.Abs(p.Within-all) > 1e-9 || math.Abs(p.Within-d.Within(p.Cents)) > 1e-9 {
				t.Fatalf("within %d: %v, the whole says %v", p.Cents, p.Within, d.Within(p.Cents))
			}
		}
		if math.Abs(all-1) > 1e-9 {
			t.Fatalf("chances add up to %v", all)
		}
	}
}
