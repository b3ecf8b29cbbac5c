package chart

import (
	"strconv"
	"strings"
)

// groupMark stands between groups of three digits: a narrow space that is not broken.
const groupMark = '\u202f'

// Money writes cents as 12400.50, without going through a float.
func Money(c int64) string { return decimal(c, 2) }

// money writes cents for the eye: 1240.50, but 12 400.50.
func money(c int64) string { return grouped(Money(c)) }

// decimal writes a whole number with its last places behind a point.
func decimal(v int64, places int) string {
	sign, n := "", uint64(v)
	if v < 0 {
		sign, n = "-", -n // right for the least integer, too
	}
	digits := strconv.FormatUint(n, 10)
	if places == 0 {
		return sign + digits
	}
	if short := places + 1 - len(digits); short > 0 {
		digits = strings.Repeat("0", short) + digits
	}
	cut := len(digits) - places
	return sign + digits[:cut] + "." + digits[cut:]
}

// grouped sets the digits before the point in threes, if there are five or more.
func grouped(s string) string {
	from := strings.IndexFunc(s, func(r rune) bool { return r != '-' })
	to := strings.IndexByte(s, '.')
	if to < 0 {
		to = len(s)
	}
	if to-from < 5 {
		return s
	}
	var b strings.Builder
	for i, r := range s {
		if i > from && i < to && (to-i)%3 == 0 {
			b.WriteRune(groupMark)
		}
		b.WriteRune(r)
	}
	return b.String()
}

// sumOf adds up; beyond the greatest integer it stays there.
func sumOf(all []int64) int64 {
	const most, least = 1<<63 - 1, -1 << 63
	sum := int64(0)
	for _, v := range all {
		switch {
		case v > 0 && sum > most-v:
			sum = most
		case v < 0 && sum < least-v:
			sum = least
		default:
			sum += v
		}
	}
	return sum
}
