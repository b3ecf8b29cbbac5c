package catalog

import (
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"
)

// header reads [a.b] or [[a.b]].
func (s *scanner) header() (path []string, ok bool) {
	start := s.at
	list := strings.HasPrefix(s.src[s.at:], "[[")
	s.at++
	if list {
		s.at++
	}
	path, spans, ok := s.key()
	if !ok || s.at >= len(s.src) || s.src[s.at] != ']' {
		return nil, false
	}
	s.at++
	if list && s.at < len(s.src) && s.src[s.at] == ']' {
		s.at++
	}
	whole := s.since(start)
	s.mark(nil, path, spans)
	full := join(path...)
	s.scope = ""
	switch {
	case list:
		s.lists = append(s.lists, double{path: path, first: whole})
		s.inLists[full] = true
	case !s.underList(path):
		_, again := s.defined[full]
		s.define(path, spans[len(spans)-1])
		if again {
			s.scope = fmt.Sprintf("%d\x02", s.line)
		}
	}
	return path, true
}

// underList says whether a path leads through an array of tables, where the
// same key may come again.
func (s *scanner) underList(path []string) bool {
	if len(s.inLists) == 0 {
		return false
	}
	for i := range path {
		if s.inLists[join(path[:i+1]...)] {
			return true
		}
	}
	return false
}

// key reads a bare, quoted or dotted key and the spaces after it.
func (s *scanner) key() (path []string, spans []span, ok bool) {
	for {
		s.spaces()
		start := s.at
		name, ok := s.keyPart()
		if !ok {
			return nil, nil, false
		}
		path, spans = append(path, name), append(spans, s.since(start))
		if !s.count(spans[len(spans)-1]) {
			return nil, nil, false
		}
		if len(path) > maxDepth {
			s.deep = &spans[len(spans)-1]
			return nil, nil, false
		}
		s.spaces()
		if s.at >= len(s.src) || s.src[s.at] != '.' {
			return path, spans, true
		}
		s.at++
	}
}

// keyPart reads one part of a dotted key.
func (s *scanner) keyPart() (string, bool) {
	if s.at >= len(s.src) {
		return "", false
	}
	start := s.at
	switch s.src[s.at] {
	case '\'':
		if !s.shortText('\'') {
			return "", false
		}
		return s.src[start+1 : s.at-1], true
	case '"':
		if !s.shortText('"') {
			return "", false
		}
		return unquote(s.src[start:s.at])
	}
	for s.at < len(s.src) && !strings.ContainsRune(" \t\r\n.=[]{},#\"'", rune(s.src[s.at])) {
		s.at++
	}
	return s.src[start:s.at], s.at > start
}

// unquote gives what a basic string means, as the decoder sees it.
func unquote(quoted string) (string, bool) {
	if !strings.Contains(quoted, `\`) {
		return quoted[1 : len(quoted)-1], true
	}
	var v struct{ K string }
	_, err := toml.Decode("K = "+quoted, &v)
	return v.K, err == nil
}
