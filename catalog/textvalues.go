package catalog

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// text reads a note; "" where there is none.
func (t *table) text(key string) string { return t.textAs(key, prose) }

// exactly reads a path, an id or a word: text without any character that can't be seen.
func (t *table) exactly(key string) string { return t.textAs(key, exact) }

// name reads what something is called, in words.
func (t *table) name(key string) string { return t.textAs(key, label) }

func (t *table) textAs(key string, strict strictness) string {
	v, ok := t.raw(key)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		t.wrong(key, "this has to be text", fmt.Sprintf("write %s = %q, in quotes", t.label(key), shown(v)))
		return ""
	}
	if utf8.RuneCountInString(s) > maxLength {
		t.wrong(key, fmt.Sprintf("this text is longer than %d characters", maxLength),
			"keep long notes in a file of their own")
		return ""
	}
	at := t.place(key).value
	if at.in != nil && at.in.source == Recorded && !strings.ContainsFunc(s, isSteering) {
		return s // it stands in a journal that was written when this was allowed
	}
	if t.refused(at, t.label(key)+": this", s, strict,
		func(clean string) string { return fmt.Sprintf("%s = %q", t.label(key), clean) }) {
		return ""
	}
	return s
}

// isSteering says whether a character was never allowed in a text.
func isSteering(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }

// word reads one word out of a fixed few; "" where there is none or it is wrong.
func (t *table) word(key string, known ...string) string {
	if v, ok := t.raw(key); ok {
		if _, isText := v.(string); !isText {
			t.wrong(key, "this has to be one of a few words", meant("", known, ""))
			return ""
		}
	}
	s := t.exactly(key)
	if s == "" {
		if v, ok := t.raw(key); ok && v == "" {
			t.wrong(key, "this is empty", meant("", known, ""))
		}
		return ""
	}
	for _, w := range known {
		if strings.EqualFold(s, w) {
			return w
		}
	}
	t.wrong(key, fmt.Sprintf("unknown word %q", clip(s)), meant(s, known, ""))
	return ""
}

// says says whether a text is a word, with any capitals.
func (t *table) says(key, word string) bool {
	s, isText := t.m[key].(string)
	return isText && strings.EqualFold(s, word)
}

// texts reads a list of texts.
func (t *table) texts(key string) []string {
	v, ok := t.raw(key)
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok {
		example := "..."
		if s, isText := v.(string); isText {
			example = clip(s)
		}
		t.wrong(key, "this has to be a list of names", fmt.Sprintf("write %s = [%q]", t.label(key), example))
		return nil
	}
	var out []string
	for i, e := range list {
		s, ok := e.(string)
		if !ok {
			t.wrongItem(key, i, "this has to be text", fmt.Sprintf("write %q", shown(e)))
		} else if t.refused(t.itemPlace(key, i), key+": this", s, exact,
			func(clean string) string { return fmt.Sprintf("%q", clean) }) {
			s = ""
		} else if s == "" {
			t.wrongItem(key, i, "this is empty", "write a name, or leave it out")
		} else if utf8.RuneCountInString(s) > maxLength {
			t.wrongItem(key, i, fmt.Sprintf("this text is longer than %d characters", maxLength), "write a shorter name")
			s = ""
		}
		out = append(out, s) // kept even if wrong, so that indices stay those of the file
	}
	return out
}
