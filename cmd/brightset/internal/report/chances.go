package report

import (
	"fmt"
	"strings"

	"brightset/catalog"
	"brightset/model/risk"
)

// Chance writes a chance in percent with one decimal, and never says certain of
// what is not.
func Chance(p float64) string {
	switch text := fmt.Sprintf("%.1f%%", 100*p); {
	case p > 0 && text == "0.0%":
		return "less than 0.1%"
	case p < 1-1e-9 && text == "100.0%":
		return "more than 99.9%"
	default:
		return text
	}
}

// chanceBetween writes a chance that may be known by what it lies between alone.
func chanceBetween(b risk.Between) string {
	switch low, high := Chance(b.Least), Chance(b.Most); {
	case low == high, b.Most >= 1-1e-9 && b.Least >= 0.9995:
		return low
	case b.Least <= 0 && b.Most < 0.0005:
		return high
	default:
		return fmt.Sprintf("between %s and %s", low, high)
	}
}

// offBy says how far what is told may be off; "" where it is exact.
func offBy(r *risk.Risk) string {
	var all []string
	if r.Cash.Off > 0 {
		all = append(all, fmt.Sprintf("a sum by %s at most, too high if at all", catalog.FormatMoney(r.Cash.Off)))
	}
	if off := r.GradeOff(); off > 0 {
		all = append(all, fmt.Sprintf("a mean by %.2f at most, too low if at all", off))
	}
	if len(all) == 0 {
		return ""
	}
	return strings.Join(all, "; ") + ": so many can come about that they are told by steps"
}
