package report

import (
	"strings"
	"unicode"
)

// Columns is the width no line of text output goes beyond.
const Columns = 80

// wide are the blocks of characters that take two columns of a terminal, as
// Unicode's annex on East Asian width has them in the large.
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x1100, Hi: 0x115f, Stride: 1},
		{Lo: 0x2e80, Hi: 0x303e, Stride: 1},
		{Lo: 0x3041, Hi: 0xa4cf, Stride: 1},
		{Lo: 0xac00, Hi: 0xd7a3, Stride: 1},
		{Lo: 0xf900, Hi: 0xfaff, Stride: 1},
		{Lo: 0xfe30, Hi: 0xfe6f, Stride: 1},
		{Lo: 0xff00, Hi: 0xff60, Stride: 1},
		{Lo: 0xffe0, Hi: 0xffe6, Stride: 1},
	},
	R32: []unicode.Range32{
		{Lo: 0x1f300, Hi: 0x1faff, Stride: 1},
		{Lo: 0x20000, Hi: 0x3fffd, Stride: 1},
	},
}

// Width is the number of terminal columns s takes.
func Width(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

func runeWidth(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case unicode.Is(wide, r):
		return 2
	}
	return 1
}

// clean makes s safe to print on one line: what the user wrote in a name or a
// note must neither break the table nor steer the terminal.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, s)
}

// Wrap breaks s between words into lines no wider than width, each indented as
// s is. A word wider than that is broken where it has to be. The result has at
// least one line.
func Wrap(s string, width int) []string {
	indent := s[:len(s)-len(strings.TrimLeft(s, " "))]
	width = max(width-len(indent), 2) // one wide character
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(clean(s)) {
		w := Width(word)
		if used > 0 && used+1+w <= width {
			line, used = line+" "+word, used+1+w
			continue
		}
		if used > 0 {
			lines = append(lines, indent+line)
		}
		for w > width {
			var head string
			head, word = split(word, width)
			lines = append(lines, indent+head)
			w = Width(word)
		}
		line, used = word, w
	}
	return append(lines, indent+line)
}

// split cuts s after as many characters as fit into width.
func split(s string, width int) (head, rest string) {
	used := 0
	for i, r := range s {
		if used += runeWidth(r); used > width {
			return s[:i], s[i:]
		}
	}
	return s, ""
}

// Paragraph wraps text to Columns, the first line after first, the others after
// rest. It ends with a line feed.
func Paragraph(first, rest, text string) string {
	var b strings.Builder
	lead := first
	for _, line := range Wrap(text, Columns-max(Width(first), Width(rest))) {
		b.WriteString(strings.TrimRight(lead+line, " ") + "\n")
		lead = rest
	}
	return b.String()
}
