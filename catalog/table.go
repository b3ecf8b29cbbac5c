package catalog

import (
	"fmt"
	"strings"
)

// table reads one table of a file. It remembers which keys were asked for, so
// that done can report those that nobody knows, and hands every mistake with
// its place to the loader.
type table struct {
	l      *loader
	doc    *document
	path   string // joined
	what   string // for messages: `piece "rl-1"`
	id     string
	m      map[string]any
	asked  map[string]bool
	source Source // origin of the values read from here
	alias  string // key in the file that stands for "value", where a word is written in one line
}

// rootTable reads the top level of a document.
func (l *loader) rootTable(d *document) *table {
	return &table{l: l, doc: d, what: "the top level", m: d.root, source: d.source}
}

// raw gives the value of a key and remembers that the key is known.
func (t *table) raw(key string) (any, bool) {
	if t.asked == nil {
		t.asked = map[string]bool{}
	}
	t.asked[key] = true
	v, ok := t.m[key]
	return v, ok
}

func (t *table) has(key string) bool {
	_, ok := t.raw(key)
	return ok
}

func (t *table) pathOf(key string) string {
	if t.path == "" {
		return key
	}
	return t.path + "\x00" + key
}

// places of a key and of its value; the table's own where a scan missed it.
func (t *table) place(key string) place {
	if t.alias != "" {
		key = t.alias
	}
	if p, ok := t.doc.places[t.pathOf(key)]; ok {
		return p
	}
	return t.own()
}

func (t *table) own() place {
	if t.alias != "" {
		return t.doc.places[t.pathOf(t.alias)]
	}
	return t.doc.places[t.path]
}

func (t *table) origin(s span) Origin {
	if s.in != nil {
		return Origin{Source: Recorded, File: s.in.file, Line: s.line, Column: s.column}
	}
	return Origin{Source: t.source, File: t.doc.file, Line: s.line, Column: s.column}
}

// from is the origin of the value of a key.
func (t *table) from(key string) Origin { return t.origin(t.place(key).value) }

// here is the origin of the table itself.
func (t *table) here() Origin { return t.origin(t.own().key) }

// label is a key as it stands in the file.
func (t *table) label(key string) string {
	if t.alias != "" {
		key = t.alias
	}
	return keyText(key)
}

// wrong reports a mistake in the value of a key.
func (t *table) wrong(key, message, hint string) {
	t.l.mistake(t.doc, t.place(key).value, t.label(key)+": "+message, hint)
}

// wrongItem reports a mistake in the i-th element of a list.
func (t *table) wrongItem(key string, i int, message, hint string) {
	t.l.mistake(t.doc, t.itemPlace(key, i), key+": "+message, hint)
}

// itemPlace is where the i-th element of a list stands; the list's own place where a
// scan missed it.
func (t *table) itemPlace(key string, i int) span {
	if p, ok := t.doc.places[item(t.pathOf(key), i)]; ok {
		return p.value
	}
	return t.place(key).value
}

// wrongKey reports a mistake about a key itself.
func (t *table) wrongKey(key, message, hint string) {
	t.l.mistake(t.doc, t.place(key).key, message, hint)
}

// wrongHere reports a mistake about the table as a whole.
func (t *table) wrongHere(message, hint string) {
	t.l.mistake(t.doc, t.own().key, message, hint)
}

// need reports a key that has to be there and is not.
func (t *table) need(key, hint string) bool {
	if t.has(key) {
		return true
	}
	t.wrongHere(fmt.Sprintf("%s has no %s", t.what, key), hint)
	return false
}

// sub reads a table below this one; nil if there is none.
func (t *table) sub(key, what string) *table {
	v, ok := t.raw(key)
	if !ok {
		return nil
	}
	m, ok := v.(map[string]any)
	if !ok {
		if _, list := v.([]map[string]any); !list || !t.isListHeader(key) {
			t.wrong(key, "this has to be a table", t.tableHint(key, key == what))
		}
		return nil
	}
	return &table{l: t.l, doc: t.doc, path: t.pathOf(key), what: what, id: key, m: m, source: t.source}
}

// tableHint says how a table under a key is written, or one of a group below it.
func (t *table) tableHint(key string, group bool) string {
	name := dotted(strings.Split(t.pathOf(key), "\x00"))
	if group {
		name += ".NAME"
	}
	return fmt.Sprintf("write [%s] on a line of its own, and its keys below it", name)
}

// isListHeader says whether a key comes from a [[...]] header, which has been
// reported already.
func (t *table) isListHeader(key string) bool {
	p := t.place(key)
	return p.key == p.value
}

// named reads the tables below a key, such as all of [piece.NAME], in the order
// of the file. Names that can't be used as ids are reported.
func (t *table) named(key string) []*table {
	group := t.sub(key, key)
	if group == nil {
		return nil
	}
	var out []*table
	for i, name := range group.keys() {
		if group.tooMany(key, name, i) {
			break
		}
		if !group.goodID(key, name) {
			continue
		}
		if s := group.sub(name, fmt.Sprintf("%s %q", key, name)); s != nil {
			out = append(out, s)
		} else {
			t.l.spoilt[join(key, name)] = true
		}
	}
	return out
}

// tooMany reports the i-th table of a kind where there are more than any job
// can need.
func (t *table) tooMany(kind, name string, i int) bool {
	most, ok := mostOf[kind]
	if !ok {
		most = mostOthers
	}
	if i < most {
		return false
	}
	t.wrongKey(name, fmt.Sprintf("there are more than %d tables [%s.NAME]", most, kind), "leave some out")
	return true
}
