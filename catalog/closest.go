package catalog

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Closest returns the one of words that is most like the given one, "" if none
// is alike. Of equally close words the first wins.
func Closest(given string, words []string) string {
	const longest = 60
	if given == "" || len(given) > longest {
		return ""
	}
	plain := plainWord(given)
	if w := otherWord(plain, words); w != "" && !slices.Contains(words, given) {
		return w
	}
	if _, two := unsure(plain, words); two {
		return ""
	}
	best, least := "", utf8.RuneCountInString(given)/3+2
	for _, w := range words {
		if len(w) > longest {
			continue
		}
		if plainWord(w) == plain {
			return w
		}
		d := distance(strings.ToLower(given), strings.ToLower(w))
		if d > 1 && len(plain) < 7 && !sameStart(plain, plainWord(w)) {
			continue // "color" is no slip for "floor"
		}
		if d < least && d < utf8.RuneCountInString(w) {
			best, least = w, d
		}
	}
	if best == "" {
		return within(plain, words)
	}
	return best
}

func sameStart(a, b string) bool { return a != "" && b != "" && a[0] == b[0] }

// within returns the first word that contains the given one, or is contained
// in it, as a whole: "factor" means "breakage_factor".
func within(plain string, words []string) string {
	for _, w := range words {
		p := plainWord(w)
		if len(p) >= 4 && len(plain) >= 4 && (strings.Contains(p, plain) || strings.Contains(plain, p)) {
			return w
		}
	}
	return ""
}

// plainWord drops case, spaces, hyphens and underscores, which people mix up.
func plainWord(s string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(s))
}

// distance counts the letters to insert, delete, replace or swap with their
// neighbour to get from a to b.
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	older, old := make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range old {
		old[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row := make([]int, len(t)+1)
		row[0] = i
		for j := 1; j <= len(t); j++ {
			change := old[j-1]
			if s[i-1] != t[j-1] {
				change++
			}
			row[j] = min(change, old[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], older[j-2]+1)
			}
		}
		older, old = old, row
	}
	return old[len(t)]
}

// meant is the hint for a word that isn't known: the closest one, or the list
// of all if it is short, or else what the caller says.
func meant(given string, words []string, otherwise string) string {
	if two, ok := unsure(plainWord(given), words); ok {
		return fmt.Sprintf("did you mean %q or %q?", two[0], two[1])
	}
	if w := Closest(given, words); w != "" {
		return fmt.Sprintf("did you mean %q?", w)
	}
	if otherwise != "" {
		return otherwise
	}
	if len(words) == 0 {
		return ""
	}
	if len(words) == 1 {
		return fmt.Sprintf("write %q", words[0])
	}
	const most = 12
	quoted := make([]string, 0, most+1)
	for i, w := range words {
		if i == most {
			quoted = append(quoted, "...")
			break
		}
		quoted = append(quoted, fmt.Sprintf("%q", w))
	}
	return "write one of " + strings.Join(quoted, ", ")
}

// orOneOf puts the words there are, if they are few, before another hint.
func orOneOf(words []string, hint string) string {
	if len(words) == 0 || len(words) > 6 {
		return hint
	}
	return meant("", words, "") + "; or " + hint
}
