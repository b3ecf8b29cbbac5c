package sheet

import (
	"fmt"
	"strings"
)

// delimiters are what may stand between cells, with their names.
var delimiters = []struct {
	char byte
	name string
}{{',', "comma"}, {';', "semicolon"}, {'\t', "tab"}}

// ParseDelimiter reads the name of a delimiter; "" gives 0, which is to find out.
func ParseDelimiter(s string) (rune, error) {
	for _, d := range delimiters {
		if s == d.name {
			return rune(d.char), nil
		}
	}
	if s == "" {
		return 0, nil
	}
	return 0, fmt.Errorf("no delimiter %q; write comma, semicolon or tab", s)
}

// guess is the delimiter with which the head names the most columns. Some
// spreadsheets say it themselves, in a first line such as sep=; which is not
// part of the table.
func guess(src string, w What) (byte, *Problem) {
	if d, _, ok := told(src); ok {
		return d, nil
	}
	best, most, again := delimiters[0], -1, ""
	for _, d := range delimiters {
		cells := headOf(src, d.char)
		if len(cells) < 2 {
			continue
		}
		n := 0
		for _, name := range cells {
			if _, ok := w.column(plainName(name)); ok {
				n++
			}
		}
		switch {
		case n > most:
			best, most, again = d, n, ""
		case n == most && n > 0:
			again = d.name
		}
	}
	if again != "" {
		return 0, &Problem{Message: fmt.Sprintf("the head makes as much sense with a %s between the cells as with a %s",
			best.name, again), Hint: "say which it is: --delimiter " + best.name}
	}
	return best.char, nil
}

// told finds a first line such as sep=; and gives the text after it.
func told(src string) (delimiter byte, rest string, ok bool) {
	after, ok := strings.CutPrefix(src, "sep=")
	if !ok || after == "" || !strings.ContainsRune(",;\t", rune(after[0])) {
		return 0, src, false
	}
	rest = after[1:]
	if rest != "" && rest[0] != '\r' && rest[0] != '\n' {
		return 0, src, false
	}
	return after[0], rest, true
}

// headOf is the first row that isn't empty.
func headOf(src string, delimiter byte) []string {
	r := &reader{src: src, delimiter: delimiter}
	for r.at < len(r.src) {
		if cells := r.record(); !(record{0, cells}).blank() {
			return cells
		}
	}
	return nil
}
