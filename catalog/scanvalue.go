package catalog

import "strings"

// keyValue reads a key, the equals sign and the value of a table.
func (s *scanner) keyValue(table []string, depth int) bool {
	key, spans, ok := s.key()
	if !ok || s.at >= len(s.src) || s.src[s.at] != '=' {
		return false
	}
	s.at++
	s.spaces()
	path := append(append([]string{}, table...), key...)
	s.mark(table, key, spans)
	if depth == 0 && !s.underList(path) {
		s.define(path, spans[len(spans)-1])
	}
	return s.value(path, &spans[len(spans)-1], depth)
}

// value reads any value and notes its place. A value that goes on over several
// lines is marked on its first line only.
func (s *scanner) value(path []string, key *span, depth int) bool {
	if s.at >= len(s.src) {
		return false
	}
	start, line, column := s.at, s.line, s.column(s.at)
	if key == nil && !s.count(span{line: line, column: column, width: 1}) {
		return false
	}
	if depth > maxDepth {
		s.deep = &span{line: line, column: column, width: 1}
		return false
	}
	var ok bool
	switch s.src[s.at] {
	case '"', '\'':
		ok = s.text()
	case '[':
		ok = s.array(path, depth)
	case '{':
		ok = s.inline(path, depth)
	default:
		ok = s.scalar()
	}
	if !ok {
		return false
	}
	at := span{line: line, column: column, width: 1}
	if s.line == line {
		at = span{line: line, column: column, width: max(1, s.column(s.at)-column)}
	} else if i := strings.IndexByte(s.src[start:], '\n'); i > 0 {
		at.width = len([]rune(strings.TrimRight(s.src[start:start+i], " \t\r")))
	}
	full := join(path...)
	s.paths += len(full)
	if key == nil {
		s.places[full] = place{at, at}
	} else {
		s.places[full] = place{*key, at}
	}
	return true
}

// array reads [a, b, ...]; the i-th element's path is item(path, i).
func (s *scanner) array(path []string, depth int) bool {
	s.at++
	full := join(path...)
	for i := 0; ; i++ {
		s.blank()
		if s.at >= len(s.src) {
			return false
		}
		if s.src[s.at] == ']' {
			s.at++
			return true
		}
		if !s.value([]string{item(full, i)}, nil, depth+1) {
			return false
		}
		s.blank()
		if s.at < len(s.src) && s.src[s.at] == ',' {
			s.at++
		} else if s.at >= len(s.src) || s.src[s.at] != ']' {
			return false
		}
	}
}

// inline reads {a = 1, b = 2}.
func (s *scanner) inline(path []string, depth int) bool {
	s.at++
	for {
		s.blank()
		if s.at >= len(s.src) {
			return false
		}
		if s.src[s.at] == '}' {
			s.at++
			return true
		}
		if !s.keyValue(path, depth+1) {
			return false
		}
		s.blank()
		if s.at < len(s.src) && s.src[s.at] == ',' {
			s.at++
		} else if s.at >= len(s.src) || s.src[s.at] != '}' {
			return false
		}
	}
}

// scalar reads a number, a date or true and false.
func (s *scanner) scalar() bool {
	start := s.at
	for s.at < len(s.src) && !strings.ContainsRune(",]}#\n", rune(s.src[s.at])) {
		s.at++
	}
	for s.at > start && strings.ContainsRune(" \t\r", rune(s.src[s.at-1])) {
		s.at--
	}
	return s.at > start
}

// text reads a string of any of the four kinds, quotes included.
func (s *scanner) text() bool {
	quote := s.src[s.at]
	if triple := strings.Repeat(string(quote), 3); strings.HasPrefix(s.src[s.at:], triple) {
		return s.longText(quote, triple)
	}
	return s.shortText(quote)
}

// shortText reads a string that ends on its line.
func (s *scanner) shortText(quote byte) bool {
	for s.at++; s.at < len(s.src); s.at++ {
		switch c := s.src[s.at]; {
		case c == quote:
			s.at++
			return true
		case c == '\n':
			return false
		case c == '\\' && quote == '"':
			s.at++
			if s.at < len(s.src) && s.src[s.at] == '\n' {
				return false
			}
		}
	}
	return false
}

// longText reads a string in triple quotes, which may end in up to two more.
func (s *scanner) longText(quote byte, triple string) bool {
	s.at += 3
	for s.at < len(s.src) {
		switch {
		case strings.HasPrefix(s.src[s.at:], triple):
			s.at += 3
			for i := 0; i < 2 && s.at < len(s.src) && s.src[s.at] == quote; i++ {
				s.at++
			}
			return true
		case s.src[s.at] == '\n':
			s.newline()
		case s.src[s.at] == '\\' && quote == '"' && s.at+1 < len(s.src) && s.src[s.at+1] != '\n':
			s.at += 2
		default:
			s.at++
		}
	}
	return false
}
