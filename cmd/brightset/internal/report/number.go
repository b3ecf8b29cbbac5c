package report

import (
	"fmt"

	"brightset/catalog"
)

// Percent writes a chance with one place; what is not nothing never shows as
// 0.0, and what is not certain never as 100.0.
func Percent(p catalog.Micro) string {
	switch {
	case p <= 0:
		return "0%"
	case p < 1000:
		return "<0.1%"
	case p >= catalog.One:
		return "100%"
	case p > 999_000:
		return ">99.9%"
	}
	tenths := (int64(p) + 500) / 1000
	return fmt.Sprintf("%d.%d%%", tenths/10, tenths%10)
}

// count writes "1 piece", "3 pieces".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
