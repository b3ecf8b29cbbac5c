package catalog

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// syntax turns the decoder's error into a mistake.
func (l *loader) syntax(d *document, s *scanner, src string, err error) {
	var parse toml.ParseError
	if !errors.As(err, &parse) {
		l.mistake(d, span{}, lowerFirst(err.Error()), "")
		return
	}
	if strings.Contains(parse.Message, "already been defined") || strings.Contains(parse.Message, "already created") {
		if len(s.doubles) > 0 {
			for _, two := range s.doubles {
				l.twice(d, two)
			}
			return
		}
	}
	if strings.Contains(parse.Message, "cannot be used as an array") && len(s.lists) > 0 {
		l.noLists(d, s)
		return
	}
	at := span{line: max(1, min(parse.Position.Line, strings.Count(src, "\n")+1)), column: 1, width: 1}
	if start := min(parse.Position.Start, len(src)); start > 0 {
		head := src[:start]
		if strings.Count(head, "\n")+1 == at.line {
			begin := strings.LastIndexByte(head, '\n') + 1
			at.column = utf8.RuneCountInString(head[begin:]) + 1
			end := min(start+max(1, parse.Position.Len), len(src))
			at.width = max(1, utf8.RuneCountInString(src[start:end]))
		}
	}
	message := lowerFirst(strings.TrimSuffix(parse.Message, "."))
	if before, after, atEnd := strings.Cut(message, `'\n'`); atEnd {
		message = before + "the end of the line" + after
		if at.column == 1 && at.line > 1 {
			at.line--
			at.column = utf8.RuneCountInString(d.line(at.line)) + 1
		}
	}
	message = plainSyntax(message)
	l.mistake(d, at, message, syntaxHint(message, d.line(at.line)))
}

// twice reports a table or key that is written a second time.
func (l *loader) twice(d *document, two double) {
	name := dotted(two.path)
	hint := "leave one of the two out"
	if p, known := d.places[join(two.path...)]; known && p.key == p.value {
		name = "[" + name + "]"
		hint = "give one of the two another name, or put both together"
	}
	l.mistake(d, two.second, fmt.Sprintf("%s is written twice, first on line %d", name, two.first.line), hint)
}
