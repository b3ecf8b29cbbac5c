package main

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
)

// document is a JSON answer laid flat.
type document struct {
	leaves []leaf
	called map[string][]string // ids by the name that the document gives for them
}

type leaf struct {
	path  []string // keys on the way, places in lists left out
	text  string
	num   float64
	isNum bool
}

func (l *leaf) key() string { return l.path[len(l.path)-1] }

// under says whether a key on the way holds one of the words.
func (l *leaf) under(words ...string) bool {
	for _, k := range l.path {
		for _, w := range words {
			if strings.Contains(k, w) {
				return true
			}
		}
	}
	return false
}

func flatten(v any, path []string, drop string, to *document) {
	switch v := v.(type) {
	case map[string]any:
		for k, sub := range v {
			if of, ok := sub.(map[string]any); k == "names" && ok {
				to.learn(of)
			} else if !slices.Contains(strings.Split(drop, "|"), k) {
				flatten(sub, append(slices.Clone(path), k), drop, to)
			}
		}
	case []any:
		for _, sub := range v {
			flatten(sub, path, drop, to)
		}
		to.leaves = append(to.leaves, leaf{path: append(slices.Clone(path), "#"), num: float64(len(v)), isNum: true})
	case float64:
		to.leaves = append(to.leaves, leaf{path: path, num: v, isNum: true})
	case string:
		to.leaves = append(to.leaves, leaf{path: path, text: v})
	}
}

// documentOf lays an answer flat, without the values of one key where drop names it, or of
// several that say the same where all is proven: "worth_cents|worth_at_most_cents".
func documentOf(t *testing.T, text, drop string) *document {
	t.Helper()
	var v any
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatalf("%v in %.300s", err, text)
	}
	d := &document{called: map[string][]string{}}
	flatten(v, nil, drop, d)
	return d
}

// learn takes the names of ids, kind by kind.
func (d *document) learn(kinds map[string]any) {
	for _, of := range kinds {
		for id, name := range of.(map[string]any) {
			d.called[name.(string)] = append(d.called[name.(string)], id)
		}
	}
}

// names says whether a thing stands in the document: by the word itself, or by an id that
// the document gives this name for.
func (d *document) names(s string) bool {
	return slices.ContainsFunc(d.leaves, func(l leaf) bool { return !l.isNum && l.text == s }) ||
		slices.ContainsFunc(d.called[s], d.names)
}

// has says whether some number that fits is within half a unit of the last place said.
func (d *document) has(v float64, places int, fits func(*leaf) bool) bool {
	off := math.Pow(10, -float64(places))/2 + 1e-9
	for i := range d.leaves {
		l := &d.leaves[i]
		if l.isNum && fits(l) && math.Abs(math.Abs(l.num)-v) <= off {
			return true
		}
	}
	return false
}
