package chart

import (
	"strings"
	"unicode"
)

// boldWider is how much wider heavy letters are at most.
const boldWider = 1.16

// ascii is how wide the letters from space to tilde are at most, in hundredths of their
// height: the wider of DejaVu Sans and Liberation Sans, which is cut like Arial, as a
// browser measures them. Which face is used is up to the reader's machine.
var ascii = [95]uint8{
	32, 41, 46, 84, 64, 95, 78, 28, 39, 39, 50, 84, 32, 37, 32, 34,
	64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84, 84, 84, 56,
	102, 69, 69, 73, 77, 67, 62, 78, 76, 30, 50, 67, 56, 87, 75, 79,
	67, 79, 73, 67, 62, 74, 69, 99, 69, 67, 69, 39, 34, 39, 84, 56,
	50, 62, 64, 55, 64, 62, 36, 64, 64, 28, 28, 58, 28, 98, 64, 62,
	64, 64, 42, 53, 40, 64, 60, 82, 60, 60, 53, 64, 34, 64, 84,
}

// wide is how wide a text is at most, in units. A guess on the safe side outside ASCII:
// labels must not touch, whatever the face.
func wide(s string) float64 {
	w := 0
	for _, r := range s {
		w += hundredths(r)
	}
	return float64(w) * textSize / 100
}

func hundredths(r rune) int {
	switch {
	case r >= ' ' && r <= '~':
		return int(ascii[r-' '])
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case r == groupMark:
		return 32 // where a face lacks it, a space stands there
	case r >= 0x2018 && r <= 0x201f:
		return 55
	case r == 'æ', r == 'œ':
		return 105
	case r < 0x250 && (unicode.IsLower(r) || !unicode.IsLetter(r)):
		return 85
	case r >= 0x2e3a && r <= 0x2e3b:
		return 320
	case r >= 0x1c4 && r <= 0x1cc, r >= 0x1f1 && r <= 0x1f3, r >= 0x2031 && r <= 0x2037, r >= 0x27f0 && r <= 0x27ff,
		r >= 0xa640 && r <= 0xa69f:
		return 180
	case r >= 0x2e80 && r <= 0xd7ff, r >= 0xf900 && r <= 0xfaff, r >= 0xff00 && r <= 0xffef:
		return 110 // Chinese, Japanese, Korean: square
	case r >= 0xfbb2 && r <= 0xfdff, r >= 0x12000 && r <= 0x1254f:
		return 600 // whole sentences in one character
	case r > 0xffff:
		return 150
	}
	return 125
}

// shorten cuts a plain text to what fits into room, and says so with three dots.
func shorten(s string, room float64) string {
	if wide(s) <= room {
		return s
	}
	const dots = "…"
	left := room - wide(dots)
	if left < 0 {
		return ""
	}
	for i, r := range s {
		if left -= wide(string(r)); left < 0 {
			return strings.TrimRight(s[:i], " ") + dots
		}
	}
	return s
}
