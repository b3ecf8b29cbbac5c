package catalog

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// document is one file, decoded, with the place of everything in it.
type document struct {
	file   string // as the user would name it
	dir    string
	source Source
	rank   int // place of the file among all in the list of mistakes
	lines  []string
	root   map[string]any
	places map[string]place
}

// decode makes a document of a source. Mistakes go to the loader; false means
// that the file can't be used at all.
func (l *loader) decode(d *document, src string) bool {
	d.dir = filepath.Dir(d.file)
	d.lines = strings.Split(src, "\n")
	s := scan(src)
	d.places = s.places
	if s.deep != nil {
		l.mistake(d, *s.deep, "this is nested too deeply", fmt.Sprintf("nothing in these files is nested more than %d deep", maxDepth))
		return false
	}
	d.root = map[string]any{}
	if _, err := toml.Decode(src, &d.root); err != nil {
		l.syntax(d, s, src, err)
		return false
	}
	seen := map[string]bool{}
	for _, list := range s.lists {
		if name := dotted(list.path); !seen[name] {
			seen[name] = true
			l.mistake(d, list.first, fmt.Sprintf("[[%s]]: lists of tables are not used here", name),
				fmt.Sprintf("write [%s.NAME], with a name of its own for each", name))
		}
	}
	return true
}

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
	at := span{line: max(1, min(parse.Position.Line, len(d.lines))), column: 1, width: 1}
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
			at.column = utf8.RuneCountInString(d.lines[at.line-1]) + 1
		}
	}
	message = plainSyntax(message)
	l.mistake(d, at, message, syntaxHint(message, d.lines[at.line-1]))
}

// plainSyntax rewords what the decoder says where only a programmer would
// understand it.
func plainSyntax(message string) string {
	switch {
	case strings.Contains(message, "cannot be used as an array"):
		return "[[...]]: lists of tables are not used here"
	case strings.Contains(message, "already created as a hash"), strings.Contains(message, "already been defined"):
		return "this name stands further up in another role"
	case strings.Contains(message, "out of range for int64"):
		return "the number is too large"
	case strings.Contains(message, "control characters: '0x0d'"):
		return "the lines of this file end in CR alone, as of very old computers"
	case strings.Contains(message, "control characters"):
		return "there is an invisible control character here"
	}
	return message
}

// twice reports a table or key that is written a second time.
func (l *loader) twice(d *document, two double) {
	name := dotted(two.path)
	hint := "leave one of the two out"
	if len(two.path) > 1 && len(d.places) > 0 {
		if p := d.places[join(two.path...)]; p.key == p.value {
			name = "[" + name + "]"
			hint = "give one of the two another name, or put both together"
		}
	}
	l.mistake(d, two.second, fmt.Sprintf("%s is written twice, first on line %d", name, two.first.line), hint)
}

// syntaxHint says what usually lies behind a message of the decoder's.
func syntaxHint(message, line string) string {
	switch {
	case strings.Contains(message, "lists of tables"):
		return "write [piece.NAME], with a name of its own for each"
	case strings.Contains(message, "another role"):
		return "a name is either a key with a value or a table; rename one of the two"
	case strings.Contains(message, "too large"):
		return "check the number, or write it in quotes if it is an id"
	case strings.Contains(message, "end in CR"):
		return "save the file with LF or CR-LF line ends in your editor"
	case strings.Contains(message, "control character"):
		return "delete it and type the text again"
	case strings.Contains(message, "invalid escape"):
		return `write \\ for a backslash, or put the text in single quotes`
	case strings.ContainsAny(line, "“”„‘’"):
		return `write straight quotes: "..."`
	case strings.Contains(message, "strings cannot contain newlines") || strings.Contains(message, `expected '"'`):
		return `put a closing " at the end of the text, on the same line`
	case strings.Contains(message, "expected value but found"):
		return `words are written in quotes, such as kind = "original"; numbers, true, false and dates are not`
	case strings.Contains(message, "expected '.' or '='"):
		return `a line is either key = value or [table.name]; names with spaces are written in quotes, such as [metal."pot metal"]`
	case strings.Contains(message, "end with a newline"):
		return "write one key = value on each line"
	case strings.Contains(message, "expected a comma"):
		return "put a comma between the entries"
	case strings.Contains(message, "end table name"):
		return `names with spaces are written in quotes, such as [metal."pot metal"]`
	case strings.Contains(message, "leading zero"):
		return "write the number without leading zeros; ids and money are written in quotes"
	case strings.Contains(message, "date"):
		return "write a date as 2027-01-10, without quotes"
	}
	return "see the line marked, or the one above it"
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	return strings.ToLower(string(r)) + s[n:]
}

// dotted writes a path the way it stands in a file.
func dotted(path []string) string {
	out := make([]string, len(path))
	for i, p := range path {
		out[i] = keyText(p)
	}
	return strings.Join(out, ".")
}

// keyText writes a key the way it stands in a file: bare, or in quotes.
func keyText(key string) string {
	if key == "" {
		return `""`
	}
	for _, r := range key {
		if r != '-' && r != '_' && (r < '0' || r > '9' && r < 'A' || r > 'Z' && r < 'a' || r > 'z') {
			return fmt.Sprintf("%q", key)
		}
	}
	return key
}
