package chart

import (
	"encoding/xml"
	"strings"
	"unicode"
	"unicode/utf8"
)

// mostMarks is how many accents may stand on one letter: piled up further they would
// cover what is above.
const mostMarks = 3

// plain frees a text of what does no good in a drawing or a table: control characters,
// marks that turn the direction of what follows, what takes no room, line ends, towers of
// accents.
func plain(s string) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	marks := 0
	for _, r := range strings.ToValidUTF8(s, "\uFFFD") {
		switch {
		case unicode.IsSpace(r):
			r = ' '
		case unicode.In(r, unicode.Cc, unicode.Co, unicode.Zl, unicode.Zp), turning(r), r&0xFFFE == 0xFFFE, r == 0xad,
			r == 0x200b, r == 0x2060, r == 0xfeff:
			continue
		}
		if unicode.In(r, unicode.Mn, unicode.Me) {
			if marks++; marks > mostMarks {
				continue
			}
		} else {
			marks = 0
		}
		b.WriteRune(r)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// isPlain knows at a glance most texts that are plain.
func isPlain(s string) bool {
	before := byte(' ')
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' || c == ' ' && before == ' ' {
			return false
		}
		before = s[i]
	}
	return s == "" || before != ' '
}

// turning says whether a character sets the direction of those after it.
func turning(r rune) bool {
	return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200e || r == 0x200f || r == 0x061c
}

// fewest letters of a label that still say something.
const fewest = 8

// labelled joins a label, cut to what is left of room, and a tail that is not cut. whole is
// both with nothing cut; ok is false where too little is left of the label.
func labelled(label, tail string, room float64) (text, whole string, ok bool) {
	label = plain(label)
	short := shorten(label, room-wide(tail))
	join := func(s string) string { return strings.TrimSpace(isolated(s) + tail) }
	if label != "" && short == "" || wide(tail) > room { // sums beyond all that is reckoned with
		return isolated(shorten(label+tail, room)), join(label), false
	}
	return join(short), join(label), short == label || utf8.RuneCountInString(short) > fewest
}

// isolated keeps a text that runs from right to left from reordering what stands beside
// it on the line.
func isolated(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool {
		return r >= 0x0590 && r <= 0x08ff || r >= 0xfb1d && r <= 0xfdff || r >= 0xfe70 && r <= 0xfefc ||
			r >= 0x10800 && r <= 0x10fff || r >= 0x1e800 && r <= 0x1efff
	}) {
		return "\u2068" + s + "\u2069"
	}
	return s
}

// escape makes a plain text safe in an element or an attribute.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // never fails: it writes to memory
	return b.String()
}

// ident makes an id of what the caller gave for one.
func ident(s string) string {
	id := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '-'
	}, s)
	if id == "" || !(id[0] >= 'a' && id[0] <= 'z' || id[0] >= 'A' && id[0] <= 'Z') {
		id = "chart" + id
	}
	return id
}
