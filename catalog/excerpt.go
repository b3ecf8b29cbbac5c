package catalog

import (
	"strings"
	"unicode"
)

// excerpt gives the part of a line that surrounds a column and the carets to
// stand below it, in a terminal that gives wide characters two cells.
func excerpt(line string, column, width int) (text, caret string) {
	const most, before = 100, 60
	runes := []rune(harmless(line))
	at := min(max(column-1, 0), len(runes))
	lead := ""
	if len(runes) > most && at > before {
		runes, at, lead = runes[at-before:], before, "..."
	}
	tail := ""
	if len(runes) > most {
		runes, tail = runes[:most], "..."
	}
	width = max(1, min(width, len(runes)-at))
	text = lead + strings.TrimRight(string(runes), " ") + tail
	marked := runes[at:min(at+width, len(runes))]
	return text, strings.Repeat(" ", len(lead)+cells(runes[:at])) + strings.Repeat("^", max(1, cells(marked)))
}

// harmless is a text as it may be shown: tabs and other control characters
// become spaces, so that carets stand right and nothing in a file or its name
// can steer the terminal.
func harmless(s string) string {
	return strings.Map(func(r rune) rune {
		if isControl(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
}

// isControl says whether a character does something instead of being seen.
func isControl(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp)
}

// cells counts how many cells of a terminal characters take: none for a mark
// put on the letter before, two for East Asian wide ones.
func cells(runes []rune) int {
	n := 0
	for _, r := range runes {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me):
		case unicode.In(r, unicode.Han, unicode.Hangul, unicode.Hiragana, unicode.Katakana), isWide(r):
			n += 2
		default:
			n++
		}
	}
	return n
}

// isWide covers what is wide and belongs to no one script: punctuation between
// East Asian words, full-width forms, pictures. The limits are from memory.
func isWide(r rune) bool {
	return r >= 0x3000 && r <= 0x303e || r >= 0xff01 && r <= 0xff60 || r >= 0xffe0 && r <= 0xffe6 || r >= 0x1f300 &&
		r <= 0x1faff
}
