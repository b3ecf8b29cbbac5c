package risk

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Small samples: how often something happens, from few trials.

// Posterior is what is believed of a rate after k of n, when a prior of mean m weighs
// like s trials: Beta(s m + k, s (1-m) + n - k).
type Posterior struct{ A, B float64 }

// Believe makes a posterior. A prior of weight 0 is Jeffreys's, Beta(1/2, 1/2).
func Believe(k, n int, m, s float64) Posterior {
	if s <= 0 {
		return Posterior{0.5 + float64(k), 0.5 + float64(n-k)}
	}
	m = min(max(m, 1e-6), 1-1e-6)
	return Posterior{s*m + float64(k), s*(1-m) + float64(n-k)}
}

// Mean of the rate.
func (p Posterior) Mean() float64 { return p.A / (p.A + p.B) }

// Interval holds the rate with a chance of share, the same left out on both sides.
func (p Posterior) Interval(share float64) (low, high float64) {
	b := distuv.Beta{Alpha: p.A, Beta: p.B}
	return b.Quantile((1 - share) / 2), b.Quantile((1 + share) / 2)
}

// ExactInterval is the interval of Clopper and Pearson for k of n: it holds the rate with
// at least the chance of share, whatever the rate is (NIST/SEMATECH e-Handbook 7.2.4.1).
func ExactInterval(k, n int, share float64) (low, high float64) {
	tail := (1 - share) / 2
	high = 1
	if k > 0 {
		low = distuv.Beta{Alpha: float64(k), Beta: float64(n-k) + 1}.Quantile(tail)
	}
	if k < n {
		high = distuv.Beta{Alpha: float64(k) + 1, Beta: float64(n - k)}.Quantile(1 - tail)
	}
	return low, high
}

// WilsonInterval is the score interval for k of n (NIST/SEMATECH e-Handbook 7.2.4.1).
func WilsonInterval(k, n int, share float64) (low, high float64) {
	z := distuv.UnitNormal.Quantile((1 + share) / 2)
	p, m := float64(k)/float64(n), float64(n)
	middle := (p + z*z/(2*m)) / (1 + z*z/m)
	half := z / (1 + z*z/m) * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return middle - half, middle + half
}

// CleanRuns is how many trials without a failure show a reliability with a confidence:
// the success-run theorem, n = ln(1-C)/ln(R).
func CleanRuns(confidence, reliability float64) int {
	return int(math.Ceil(math.Log(1-confidence)/math.Log(reliability) - 1e-9))
}

// studentQuantile is a quantile of Student's distribution.
func studentQuantile(p float64, freedom int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(freedom)}.Quantile(p)
}
