package solver

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// TestPortion: exact, for any worth and amounts of any size.
func TestPortion(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 26))
	s := &sizes{Rand: r, most: Limit}
	for range campaign.Cases(40_000, 2_000_000) {
		worth, amount := r.Float64(), s.up(Limit)
		if r.IntN(3) == 0 {
			worth = float64(r.IntN(11)) / 10
		}
		exact := new(big.Float).SetPrec(200).SetFloat64(worth)
		exact.Mul(exact, new(big.Float).SetInt64(amount))
		down, _ := exact.Int64()
		up := down
		if !exact.IsInt() {
			up++
		}
		if a, b := portion(worth, amount, 0), portion(worth, amount, 1); a != down || b != up {
			t.Fatalf("%v of %d: %d and %d, exactly %d and %d", worth, amount, a, b, down, up)
		}
	}
}

// randomPrices are any prices that a part can be given, high ones among them.
func (t *decomposition) randomPrices(r *rand.Rand) *prices {
	y := t.zeroPrices()
	for k := range y.row {
		y.row[k] = []int64{0, r.Int64N(t.caps[k] + 1), r.Int64N(min(t.caps[k], 100_000) + 1), t.caps[k]}[r.IntN(4)]
	}
	for k, h := range t.shared {
		s := &t.p.Switches[h]
		y.worth[k] = []float64{0, 1, r.Float64(), 0.1}[r.IntN(4)]
		left := s.Fixed*shares + portion(y.worth[k], s.Minimum*shares, 0)
		for n := range y.sw {
			y.sw[n][k] = r.Int64N(left + 1)
		}
	}
	return y
}

// TestPartBound: at any prices, the parts' best make a bound that no solution is below.
func TestPartBound(t *testing.T) {
	judged := 0
	for seed := range uint64(campaign.Cases(240, 6_000)) {
		r := rand.New(rand.NewPCG(seed, 27))
		p := realParts(r)
		total, found := bruteForce(p, Change{})
		a := p.apart()
		if a == nil || !found {
			continue
		}
		a.ctx, a.set = t.Context(), Settings{Goroutines: 1}
		d, err := a.begin(nil)
		if err != nil {
			t.Fatal(err)
		}
		for range 4 {
			y := a.randomPrices(r)
			_, least, ok, err := a.solveAll(y, d, make([]float64, len(a.parts)), 2*mostFine)
			if err != nil {
				t.Fatalf("seed %d, prices %+v: %v", seed, y, err)
			}
			if v := a.bound(y, d, least); !ok || v > total {
				t.Errorf("seed %d, prices %+v: bound %d %v, the least total is %d", seed, y, v, ok, total)
			}
			judged++
		}
	}
	if judged < campaign.Cases(100, 100) {
		t.Errorf("only %d bounds were judged", judged)
	}
}

// TestPricesOfWildDuals: whatever the linear program over plans gives, its prices are
// ones that the parts can be solved at.
func TestPricesOfWildDuals(t *testing.T) {
	judged := 0
	for seed := range uint64(40) {
		p := realParts(rand.New(rand.NewPCG(seed, 25)))
		total, found := bruteForce(p, Change{})
		a := p.apart()
		if a == nil || !found {
			continue
		}
		a.set = Settings{Goroutines: 1}
		a.ctx = t.Context()
		root, err := a.begin(nil)
		if err != nil {
			t.Fatal(err)
		}
		b := &mixer{t: a, d: root}
		b.rows()
		for _, v := range []float64{1e7, 1e13, 1e17, math.Inf(1)} {
			dual := make([]float64, len(b.l.rowLo))
			for i := range dual {
				dual[i] = -v
			}
			y := b.prices(dual)
			_, least, _, err := a.solveAll(y, root, make([]float64, len(a.parts)), 2*mostFine)
			if err != nil {
				t.Errorf("seed %d, duals of %v: %v", seed, v, err)
			} else if low := a.bound(y, root, least); low > total {
				t.Errorf("seed %d, duals of %v: bound %d, the least total is %d", seed, v, low, total)
			}
			judged++
		}
	}
	if judged < 30 {
		t.Errorf("only %d prices were judged", judged)
	}
}

// elsewhere is two parts that share a row. The first needs a trade, which takes part in
// that row and is paid out of a budget of the part's own.
func elsewhere() *Problem {
	return &Problem{
		Parts: []int{0, 1},
		Rows: []Row{{Name: "asked", Sense: AtLeast, Limit: 1}, {Name: "common", Limit: 1},
			{Name: "budget", Limit: 50, Charges: true, Account: 1}},
		Switches: []Switch{{Name: "trade", Account: 1, Fixed: 1, Voluntary: true, Terms: []Term{{0, 1}, {1, 1}}}},
		Groups: []Group{
			{Columns: []Column{{Cost: 10, Terms: []Term{{0, 0}, {2, 49}}}, {Cost: 900, Terms: []Term{{0, 0}, {2, 20}}}}},
			{Columns: []Column{{Cost: 10, Terms: []Term{{1, 1}}}, {Cost: 500}}},
		},
	}
}

// TestPaidElsewhere: a switch in a common row that pays to another account has no price
// in the total, so such a problem is not taken apart, and the answer is right.
func TestPaidElsewhere(t *testing.T) {
	p := elsewhere()
	if p.apart() != nil {
		t.Error("taken apart")
	}
	s, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	res, err := s.Solve(t.Context(), Change{}, Settings{})
	if want, _ := bruteForce(p, Change{}); err != nil || res.Status != Optimal || res.Total != want {
		t.Errorf("%v %d (%v), by trying everything %d", res.Status, res.Total, err, want)
	}
}
