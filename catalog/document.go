package catalog

import (
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
	src    string
	starts []int32 // where its lines begin; found when a line is first asked for
	root   map[string]any
	places map[string]place
}

// decode makes a document of a source. Mistakes go to the loader; false means
// that the file can't be used at all.
func (l *loader) decode(d *document, src string) bool {
	d.dir = filepath.Dir(d.file)
	d.src = src
	s, places, root, known := l.opt.Known.find(src)
	if !known {
		s = scan(src)
		places = s.places
	}
	d.places = places
	if s.deep != nil {
		l.mistake(d, *s.deep, "this is nested too deeply", fmt.Sprintf("nothing in these files is nested more than %d deep",
			maxDepth))
		return false
	}
	if s.much != nil {
		l.mistake(d, *s.much, "there is too much in this file",
			fmt.Sprintf("a file holds at most %d keys, tables and list entries, with names of the usual length; check that "+
				"this is the right one", maxEntries))
		return false
	}
	if l.keys, l.paths = l.keys+s.entries, l.paths+s.paths; l.keys > maxAllEntries || l.paths > maxAllPaths {
		l.tooMuch(func() {
			l.mistake(d, span{}, "with it there is too much in the files of this job",
				fmt.Sprintf("all of them together hold at most %d keys, tables and list entries, with names of the usual length; "+
					"include less", maxAllEntries))
		})
		return false
	}
	if d.root = root; !known {
		d.root = map[string]any{}
		if _, err := toml.Decode(src, &d.root); err != nil {
			l.syntax(d, s, src, err)
			return false
		}
		l.opt.Known.keep(src, s, d.root)
	}
	l.noLists(d, s)
	return true
}

// line gives a line, from 1; "" where there is none.
func (d *document) line(n int) string {
	if d.starts == nil {
		d.starts = append(make([]int32, 0, strings.Count(d.src, "\n")+1), 0)
		for i := range len(d.src) {
			if d.src[i] == '\n' {
				d.starts = append(d.starts, int32(i+1))
			}
		}
	}
	if n < 1 || n > len(d.starts) {
		return ""
	}
	line := d.src[d.starts[n-1]:]
	if n < len(d.starts) {
		line = d.src[d.starts[n-1] : d.starts[n]-1]
	}
	return line
}

// noLists reports [[...]] headers, each name once.
func (l *loader) noLists(d *document, s *scanner) {
	seen := map[string]bool{}
	for _, list := range s.lists {
		if name := dotted(list.path); !seen[name] {
			seen[name] = true
			l.partial = true // what stands in them is not read
			l.mistake(d, list.first, fmt.Sprintf("[[%s]]: lists of tables are not used here", name),
				fmt.Sprintf("write [%s.NAME], with a name of its own for each", name))
		}
	}
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
