package oracle

import "math/big"

const million = 1_000_000

// part is (p m + 500000) div 1000000, where div goes down: the product of millionths
// and a number of either sign, half up. With m = 1000000 q + r, 0 <= r < 1000000, it is
// p q + (p r + 500000) div 1000000, which does not leave 64 bits.
func part[P, M ~int64](p P, m M) M {
	q, r := int64(m)/million, int64(m)%million
	if r < 0 {
		q, r = q-1, r+million
	}
	return M(int64(p)*q + (int64(p)*r+million/2)/million)
}

// joined is the chance that at least one of two things happens.
func joined[P ~int64](p, q P) P { return million - part(million-p, million-q) }

// ofMany is the chance that at least one of n things happens, by repeated products.
func ofMany[P ~int64](p P, n int) P {
	none := P(million)
	for range n {
		none = part(none, million-p)
	}
	return million - none
}

// The logarithms are taken to 200 bits: a millionth of one that lies so near a half or a
// whole that it could be rounded either way does not occur among chances in 1e-18.
const precision = 200

// millionLn is -1000000 ln(num / den) for 0 < num <= den. With x between 1/2 and 1 and a
// power of two taken out, ln x = 2 artanh((x-1) / (x+1)).
func millionLn(num, den *big.Int) *big.Float {
	x := new(big.Float).SetPrec(precision).SetInt(num)
	x.Quo(x, new(big.Float).SetPrec(precision).SetInt(den))
	halves := -x.MantExp(x)
	if x.Cmp(big.NewFloat(0.5)) == 0 { // a power of two: its logarithm has no other part
		halves++
		x.SetInt64(1)
	}
	ln := new(big.Float).SetPrec(precision).Mul(artanhRatio(big.NewFloat(0.5)), big.NewFloat(float64(halves)))
	ln.Add(ln, artanhRatio(x))
	return ln.Mul(ln, big.NewFloat(-million))
}

// artanhRatio is ln x by 2 (z + z^3/3 + z^5/5 ...) with z = (x-1) / (x+1).
func artanhRatio(x *big.Float) *big.Float {
	fresh := func() *big.Float { return new(big.Float).SetPrec(precision) }
	one := fresh().SetInt64(1)
	z := fresh().Quo(fresh().Sub(x, one), fresh().Add(x, one))
	square, power, sum := fresh().Mul(z, z), fresh().Set(z), fresh()
	for k := int64(1); power.Sign() != 0 && power.MantExp(nil) > -precision-8; k += 2 {
		sum.Add(sum, fresh().Quo(power, fresh().SetInt64(k)))
		power.Mul(power, square)
	}
	return sum.Mul(sum, fresh().SetInt64(2))
}

// down and nearest are the whole numbers at or below, and nearest to, what is not below 0.
func down(x *big.Float) int64 {
	n, _ := x.Int64()
	return n
}

func nearest(x *big.Float) int64 { return down(new(big.Float).Add(x, big.NewFloat(0.5))) }
