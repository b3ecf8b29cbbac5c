package catalog

import "math/bits"

// The program calculates in integers only. These are the four units.

// Cents is an amount of money in hundredths of the job's currency.
type Cents int64

// Micro is a share, a chance, a number of hours or an area in millionths:
// of one, of an hour, or of a square decimetre.
type Micro int64

// Centi is a grade, a tone or a weight in hundredths.
type Centi int64

// One is a whole in millionths.
const One Micro = 1_000_000

// MaxSum is the largest sum the program works with: beyond 2^53 a spreadsheet
// or a browser could no longer show the cents, so such input is a mistake.
const MaxSum = int64(1) << 53

// Of returns the part p of an amount m, p*m, rounded half up to a whole unit:
// (p*m + 500000) div 1000000. Neither may be negative. A result beyond MaxSum
// is given as MaxSum; the loader refuses inputs that large.
func Of[T ~int64](p Micro, m T) T {
	hi, lo := bits.Mul64(uint64(p), uint64(m))
	lo, carry := bits.Add64(lo, uint64(One/2), 0)
	hi += carry
	if hi >= uint64(One) {
		return T(MaxSum)
	}
	q, _ := bits.Div64(hi, lo, uint64(One))
	return T(min(q, uint64(MaxSum)))
}

// Both is the chance that two independent things with chances p and q both
// happen: p*q rounded half up.
func Both(p, q Micro) Micro { return Of(p, q) }

// Either is the chance that at least one of two independent things with
// chances p and q happens: 1 - (1-p)(1-q), the product rounded half up.
func Either(p, q Micro) Micro { return One - Both(One-p, One-q) }
