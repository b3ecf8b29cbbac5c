package standard

import "math"

// limits are the largest defective areas in per cent for the ratings 9 down to 1. To 2.5
// seen in ISO 10289 and ASTM B537, the rest from memory.
var limits = []float64{0.1, 0.25, 0.5, 1.0, 2.5, 5, 10, 25, 50}

// Rating is 10 for no defect down to 0 by the share of the surface that is defective, in
// per cent (ISO 10289).
func Rating(percent float64) int {
	if percent <= 0 {
		return 10
	}
	for i, most := range limits {
		if percent <= most {
			return 9 - i
		}
	}
	return 0
}

// AreaFor is the largest defective area in per cent that still has a rating.
func AreaFor(rating int) float64 {
	switch {
	case rating >= 10:
		return 0
	case rating <= 0:
		return 100
	}
	return limits[9-rating]
}

// RatingByFormula is R = 3(2 - log10 A) for an area A in per cent, at most 10: the rule
// behind the table (ISO 10289).
func RatingByFormula(percent float64) float64 {
	if percent < 0.046416 {
		return 10
	}
	return math.Max(0, 3*(2-math.Log10(percent)))
}

// SpotPercent is the share in per cent that a number of spots of d1 by d2 mm, taken as
// ellipses, has of an area in dm2.
func SpotPercent(n int, d1, d2, dm2 float64) float64 {
	if !above(dm2) {
		return 0
	}
	return float64(n) * d1 * d2 * math.Pi / 4 / (dm2 * 10000) * 100
}

// Viewing is how a finish is looked at (ASTM B532-85 clauses 4 and 6).
const Viewing = "looked at in the position of use from 600 to 900 mm, in diffuse light of 1500 to 1600 lm/m2 (ASTM B532)"

// Significant is where thickness is promised (ISO 27830; IS 12393 clause 1.2).
const Significant = "thickness counts on the significant surface only: what is seen, or bears, and what a ball of 20 mm can touch (ISO 27830)"
