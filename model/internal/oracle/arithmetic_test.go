package oracle

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// TestPart: half up for either sign and any size, as numbers of any length have it.
func TestPart(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for i := range 20_000 {
		p := r.Int64N(million + 1)
		m := r.Int64N(1<<54) - 1<<53
		if i%4 == 0 { // near a half
			p, m = million/2, m>>uint(r.IntN(50))
		}
		want := new(big.Int).Mul(big.NewInt(p), big.NewInt(m))
		want.Add(want, big.NewInt(million/2)).Div(want, big.NewInt(million)) // Div goes down
		if got := part(p, m); got != want.Int64() {
			t.Fatalf("%d millionths of %d are %d, not %s", p, m, got, want)
		}
	}
}

// TestMillionLn: logarithms known from elsewhere to more digits than a float has, and all
// others as near as a float can tell.
func TestMillionLn(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		want     string // of -ln, from published tables of constants
	}{
		{1, 1, "0"},
		{1, 2, "0.693147180559945309417232121458176568"},
		{1, 10, "2.302585092994045684017991454684364208"},
		{1, 3, "1.098612288668109691395245236922525705"},
		{1, million, "13.815510557964274104107948728106185245"},
	} {
		want, _, err := big.ParseFloat(c.want, 10, precision, big.ToNearestEven)
		if err != nil {
			t.Fatal(err)
		}
		got := millionLn(big.NewInt(c.num), big.NewInt(c.den))
		off := new(big.Float).Sub(got, want.Mul(want, big.NewFloat(million)))
		if off.Abs(off).Cmp(big.NewFloat(1e-27)) > 0 {
			t.Errorf("ln %d/%d: %s, want %s", c.num, c.den, got.Text('f', 30), want.Text('f', 30))
		}
	}
	r := rand.New(rand.NewPCG(2, 2))
	for range 2000 {
		num := 1 + r.Int64N(million*million)>>uint(r.IntN(39))
		got, _ := millionLn(big.NewInt(num), big.NewInt(million*million)).Float64()
		if want := -million * math.Log(float64(num)/(million*million)); math.Abs(got-want) > 1e-6 {
			t.Errorf("ln %d: %g, want %g", num, got, want)
		}
	}
}

func TestOfMany(t *testing.T) {
	for _, c := range [][3]int64{{100_000, 1, 100_000}, {100_000, 3, 271_000}, {1, 2, 2}, {million, 2, million},
		{0, 3, 0}, {500_001, 2, 750_001}} {
		if got := ofMany(c[0], int(c[1])); got != c[2] {
			t.Errorf("%d of %d: %d, want %d", c[0], c[1], got, c[2])
		}
	}
}
