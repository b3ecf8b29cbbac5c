package chart

import "strings"

// wrapped breaks a label and the tail after it into lines no wider than room. ok is false
// where that takes more lines than most.
func wrapped(label, tail string, room float64, most int) (lines []string, ok bool) {
	words := strings.Fields(plain(label))
	if tail = plain(tail); tail != "" {
		words = append(words, tail) // in one piece
	}
	line := ""
	for i, w := range words {
		if wide(w) > room || len(lines) == most {
			return nil, false
		}
		w = isolated(w)
		switch longer := line + " " + w; {
		case i == 0:
			line = w
		case wide(longer) <= room:
			line = longer
		default:
			lines, line = append(lines, line), w
		}
	}
	lines = append(lines, line)
	return lines, len(lines) <= most
}
