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

func meanAndSpread(v []float64) (mean, spread float64) {
	if len(v) == 0 {
		return 0, 0
	}
	for _, x := range v {
		mean += x / float64(len(v))
	}
	for _, x := range v {
		spread += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(spread / float64(max(1, len(v)-1)))
}

// meanInterval holds the mean with a chance of share, by Student's distribution.
func meanInterval(v []float64, share float64) (low, high float64) {
	mean, spread := meanAndSpread(v)
	if len(v) < 2 {
		return mean, mean
	}
	half := studentQuantile((1+share)/2, len(v)-1) * spread / math.Sqrt(float64(len(v)))
	return mean - half, mean + half
}

// studentQuantile is a quantile of Student's distribution.
func studentQuantile(p float64, freedom int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(freedom)}.Quantile(p)
}
