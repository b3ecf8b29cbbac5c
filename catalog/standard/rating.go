package standard

import (
	"errors"
	"math"
)

// limits are the largest defective areas in per cent for the ratings 9 down to 1. To 2.5
// seen in ISO 10289 and ASTM B537; 5 to 50 from memory.
var limits = []float64{0.1, 0.25, 0.5, 1.0, 2.5, 5, 10, 25, 50}

// ErrShare is given for a defective area that can't be, ErrRating for a rating that is
// none.
var (
	ErrShare  = errors.New("a defective area is 0 to 100 per cent of the surface")
	ErrRating = errors.New("a rating is a whole number from 0 to 10")
)

// Rating is 10 for no defect down to 0 by the share of the surface that is defective, in
// per cent (ISO 10289).
func Rating(percent float64) (int, error) {
	if !isShare(percent) {
		return 0, ErrShare
	}
	if percent == 0 {
		return 10, nil
	}
	for i, most := range limits {
		if percent <= most {
			return 9 - i, nil
		}
	}
	return 0, nil
}

// AreaFor is the largest defective area in per cent that still has a rating.
func AreaFor(rating int) (percent float64, err error) {
	switch {
	case rating < 0 || rating > 10:
		return 0, ErrRating
	case rating == 10:
		return 0, nil
	case rating == 0:
		return 100, nil
	}
	return limits[9-rating], nil
}

// RatingByFormula is R = 3(2 - log10 A) for an area A in per cent, 10 below 0.046416 %:
// the rule behind the table (ISO 10289).
func RatingByFormula(percent float64) (float64, error) {
	if !isShare(percent) {
		return 0, ErrShare
	}
	if percent < 0.046416 {
		return 10, nil
	}
	return min(10, 3*(2-math.Log10(percent))), nil
}

// AreaByFormula is the area in per cent for a rating above 0 and below 10 by the rule:
// A = 10^(2 - R/3).
func AreaByFormula(rating float64) (percent float64, err error) {
	if !(rating >= 0) || rating > 10 {
		return 0, ErrRating
	}
	return math.Pow(10, 2-rating/3), nil
}

// SpotPercent is the share in per cent that n spots of d1 by d2 mm, taken as ellipses,
// have of an area in dm2: d1 d2 pi/4 each (a published tutorial on rating).
func SpotPercent(n int, d1, d2, dm2 float64) (float64, error) {
	if n < 0 || !above(d1, d2, dm2) {
		return 0, ErrRange
	}
	share := float64(n) * d1 * d2 * math.Pi / 4 / (dm2 * 10000) * 100
	if !isShare(share) {
		return 0, ErrShare
	}
	return share, nil
}

func isShare(percent float64) bool { return percent >= 0 && percent <= 100 }

// Capped is an appearance rating as it may be reported: never above the protection rating
// (ASTM B537-70).
func Capped(appearance, protection int) int { return min(appearance, protection) }
