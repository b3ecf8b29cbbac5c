package catalog

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

// strictness is how much of what can't be seen a text may hold.
type strictness int

const (
	exact strictness = iota // a path, an id, a word: nothing; it would be another one and look the same
	label                   // a name in words: line ends, tabs, and the marks that choose how a picture looks
	prose                   // a note: those, and the joiners of some scripts
)

// allows says whether a text may hold a character that can't be seen.
func (s strictness) allows(r rune) bool {
	switch {
	case s == exact:
		return false
	case r >= 0xfe00 && r <= 0xfe0f, r == '\n', r == '\t':
		return true
	}
	return s == prose && (r == 0x200c || r == 0x200d)
}

// unseen says what a character is that does something, or nothing, instead of being
// seen; "" of all others. A space is seen by what it parts.
func unseen(r rune) string {
	switch {
	case r == '\n', r == '\r', unicode.In(r, unicode.Zl, unicode.Zp):
		return "a line end"
	case r == '\t':
		return "a tab"
	case r == 0xfeff:
		return "a byte-order mark"
	case r == 0xad:
		return "a soft hyphen"
	case unicode.IsControl(r):
		return "a control character"
	case unicode.Is(unicode.Bidi_Control, r):
		return "a mark that turns the direction of writing"
	case r&0xfffe == 0xfffe, r >= 0xfdd0 && r <= 0xfdef:
		return "no character at all"
	case unicode.Is(unicode.Prepended_Concatenation_Mark, r): // drawn around figures
		return ""
	case unicode.In(r, unicode.Cf, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector):
		return "a character that takes no room"
	}
	return ""
}

// FirstUnseen says what the first character of a text is that can't be seen and is not
// allowed even in a note; "" where there is none.
func FirstUnseen(s string) string {
	_, what := prose.first(s)
	return what
}

// first gives the place of the first character that is not allowed, and what it is.
func (s strictness) first(text string) (at int, what string) {
	for i, r := range text {
		if what := unseen(r); what != "" && !s.allows(r) {
			return i, fmt.Sprintf("U+%04X, %s", r, what)
		}
	}
	return -1, ""
}

// without is a text free of what is not allowed in it.
func (s strictness) without(text string) string {
	return strings.Map(func(r rune) rune {
		if unseen(r) != "" && !s.allows(r) {
			return -1
		}
		return r
	}, text)
}

// refused reports the first character of a value, or of a key, that can't be seen, at
// its own place if the text stands in the file as it is.
func (t *table) refused(at span, label, text string, strict strictness, write func(clean string) string) bool {
	i, what := strict.first(text)
	if what == "" {
		return false
	}
	hint := "delete it and type the text again"
	if clean := strict.without(text); clean != "" && clean == clip(clean) {
		hint = "delete it: write " + write(clean)
	}
	if path := t.doc.windowsPath(at); path != "" {
		hint = "a backslash stands for such characters: write " + write(path)
	}
	t.l.mistake(t.doc, t.doc.within(at, text, i), label+" contains "+what, hint)
	return true
}

// drivePath begins the path of a file as Windows shows it, in quotes.
var drivePath = regexp.MustCompile(`^"([A-Za-z]:|\\)\\`)

// windowsPath is a path as it may be written on every system, where the value at a place was
// taken over as Windows shows it; else "".
func (d *document) windowsPath(at span) string {
	if at.in != nil || at.line < 1 || at.column < 1 {
		return ""
	}
	line := []rune(d.line(at.line))
	raw := string(line[min(at.column-1, len(line)):min(at.column-1+at.width, len(line))])
	if !drivePath.MatchString(raw) {
		return ""
	}
	return strings.ReplaceAll(strings.Trim(raw, `"`), `\`, "/")
}

// within is the place of the character at an offset of a text; that of the whole text
// where the file writes the text in another way.
func (d *document) within(at span, text string, offset int) span {
	if at.in != nil || at.line < 1 {
		return at
	}
	line := []rune(d.line(at.line))
	from := at.column - 1
	if from < 0 || from >= len(line) || !strings.HasPrefix(string(line[min(from+1, len(line)):]), text) {
		return at
	}
	at.column += 1 + len([]rune(text[:offset]))
	at.width = 1
	return at
}
