package catalog

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// span is a place in a file: line and column from 1, width in characters.
type span struct {
	line, column, width int
	in                  *document // where that is another file than the one at hand: a journal
}

// place is where a key and its value stand. A table's key is its name in the
// first header that mentions it; its value is the same place.
type place struct{ key, value span }

// double is a table or key that is defined a second time.
type double struct {
	path          []string
	first, second span
}

// scanner finds out where in a TOML source every key and value stands; the
// decoder gives no such thing for good values. It walks the source once, needs
// no more of the grammar than where things begin and end, and stops at the
// first thing it can't follow: the decoder then says what is wrong.
type scanner struct {
	src       string
	at        int
	line      int
	lineStart int
	colAt     int // offset whose column is known
	col       int

	places  map[string]place // by joined path
	defined map[string]span  // tables by header, keys with a value
	doubles []double
	scope   string   // put before keys of a table that is written again
	lists   []double // [[...]] headers: path and place
	inLists map[string]bool
	entries int   // keys, tables and list entries so far
	paths   int   // bytes of their joined paths
	deep    *span // something nested too deeply; the scan stopped there
	much    *span // the first entry too many; the scan stopped there
}

// join makes the path of a key into one string.
func join(path ...string) string { return strings.Join(path, "\x00") }

// item is the path of the i-th element of an array.
func item(path string, i int) string { return path + "\x01" + strconv.Itoa(i) }

// scan walks a source.
func scan(src string) *scanner {
	s := &scanner{src: src, line: 1, col: 1,
		places: map[string]place{}, defined: map[string]span{}, inLists: map[string]bool{}}
	var table []string
	for s.blank(); s.at < len(s.src); s.blank() {
		if s.src[s.at] == '[' {
			path, ok := s.header()
			if !ok {
				return s
			}
			table = path
		} else if !s.keyValue(table, 0) {
			return s
		}
	}
	return s
}

// blank skips white space, newlines and comments.
func (s *scanner) blank() {
	for s.at < len(s.src) {
		switch s.src[s.at] {
		case ' ', '\t', '\r':
			s.at++
		case '\n':
			s.newline()
		case '#':
			s.toLineEnd()
		default:
			return
		}
	}
}

func (s *scanner) newline() {
	s.at++
	s.line++
	s.lineStart, s.colAt, s.col = s.at, s.at, 1
}

func (s *scanner) toLineEnd() {
	if i := strings.IndexByte(s.src[s.at:], '\n'); i >= 0 {
		s.at += i
	} else {
		s.at = len(s.src)
	}
}

// spaces skips white space within a line.
func (s *scanner) spaces() {
	for s.at < len(s.src) && (s.src[s.at] == ' ' || s.src[s.at] == '\t') {
		s.at++
	}
}

// column gives the column of an offset on the current line. Offsets only grow,
// so counting starts where it last ended.
func (s *scanner) column(at int) int {
	if at < s.colAt {
		return utf8.RuneCountInString(s.src[s.lineStart:at]) + 1
	}
	s.col += utf8.RuneCountInString(s.src[s.colAt:at])
	s.colAt = at
	return s.col
}

// since gives the span from an offset on the current line up to here.
func (s *scanner) since(from int) span {
	c := s.column(from)
	return span{line: s.line, column: c, width: max(1, s.column(s.at)-c)}
}

// count counts an entry; false where there is too much in the file. A small file
// could fill the memory with long names, since each is kept with those above it.
func (s *scanner) count(at span) bool {
	if s.entries++; s.entries > maxEntries || s.paths > maxPaths {
		s.much = &at
		return false
	}
	return true
}

// mark notes where the parts of a key stand, unless an earlier line named them.
func (s *scanner) mark(table, key []string, spans []span) {
	path := join(table...)
	for i, k := range key {
		if i > 0 || len(table) > 0 {
			path += "\x00"
		}
		path += k
		s.paths += len(path)
		if _, known := s.places[path]; !known {
			s.places[path] = place{spans[i], spans[i]}
		}
	}
}

func (s *scanner) define(path []string, at span) {
	full := s.scope + join(path...)
	if first, again := s.defined[full]; again {
		s.doubles = append(s.doubles, double{path, first, at})
		return
	}
	s.defined[full] = at
}
