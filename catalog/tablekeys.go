package catalog

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"
)

// goodID checks an id: what is read aloud, typed on the command line and
// written on tags has to be short and plain.
func (t *table) goodID(kind, id string) bool {
	problem := ""
	switch {
	case id == "":
		problem = "is empty"
	case t.refused(t.place(id).key, fmt.Sprintf("the name of this %s", kind), id, exact,
		func(clean string) string { return fmt.Sprintf("%q", clean) }):
		return false
	case strings.TrimSpace(id) != id:
		problem = "begins or ends with a space"
	case utf8.RuneCountInString(id) > maxIDLength:
		problem = fmt.Sprintf("is longer than %d characters", maxIDLength)
	case strings.HasPrefix(id, "job:") || strings.HasPrefix(id, "shop:"):
		problem = `begins with "job:" or "shop:", which the program puts there itself`
	default:
		return true
	}
	t.wrongKey(id, fmt.Sprintf("the name of this %s %s", kind, problem), "write another name")
	return false
}

// keys gives the keys of a table in the order of the file.
func (t *table) keys() []string {
	out := make([]string, 0, len(t.m))
	for k := range t.m {
		out = append(out, k)
	}
	t.inOrder(out)
	return out
}

// inOrder sorts keys of a table as they stand in the file.
func (t *table) inOrder(keys []string) {
	at := make(map[string]span, len(keys))
	for _, k := range keys {
		at[k] = t.place(k).key
	}
	slices.SortFunc(keys, func(a, b string) int {
		p, q := at[a], at[b]
		if (p.in == nil) != (q.in == nil) { // what was recorded comes after what is written
			if p.in == nil {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(p.line, q.line), cmp.Compare(p.column, q.column), cmp.Compare(a, b))
	})
}

// done reports the keys nobody asked for.
func (t *table) done() {
	var unknown []string
	for k := range t.m {
		if !t.asked[k] {
			unknown = append(unknown, k)
		}
	}
	if len(unknown) == 0 {
		return
	}
	t.inOrder(unknown)
	known := slices.Sorted(maps.Keys(t.asked))
	for _, k := range unknown {
		t.wrongKey(k, fmt.Sprintf("unknown key %q in %s", k, t.what), t.unknownHint(k, known))
	}
}

// unknownHint says what may have been meant by an unknown key: first what is
// certain, then a similar key, then all there are.
func (t *table) unknownHint(key string, known []string) string {
	if hint := t.placeHint(key); hint != "" {
		return hint
	}
	hint := t.pointInName(key)
	if hint == "" {
		hint = "known here: " + strings.Join(known, ", ")
	}
	return t.l.meant(key, known, hint)
}
