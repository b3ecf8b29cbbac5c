package chart

import (
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// element is one of a drawing, as read back from its text.
type element struct {
	name  string
	at    map[string]string
	text  string // what is to be seen
	title string // what is shown where the pointer rests
}

func (e *element) num(t testing.TB, key string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(e.at[key], 64)
	if err != nil {
		t.Errorf("<%s> %s=%q", e.name, key, e.at[key])
	}
	return v
}

// box is what a text takes up, whatever the face.
func (e *element) box(t testing.TB) box {
	w := wide(strings.Trim(e.text, "\u2068\u2069"))
	if e.at["font-weight"] == "bold" {
		w *= boldWider
	}
	x, y := e.num(t, "x"), e.num(t, "y")
	switch e.at["text-anchor"] {
	case middle:
		x -= w / 2
	case end:
		x -= w
	}
	return box{x, y - rise, x + w, y + fall}
}

// read takes a drawing apart, and fails where it is not well formed or holds anything
// that is not allowed.
func read(t testing.TB, svg string) []*element {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	var all, open []*element
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, svg)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := &element{name: token.Name.Local, at: map[string]string{}}
			keys, ok := allowed[e.name]
			if !ok {
				t.Errorf("an element <%s>", e.name)
			}
			for _, a := range token.Attr {
				if !slices.Contains(keys, a.Name.Local) {
					t.Errorf("<%s %s>", e.name, a.Name.Local)
				}
				e.at[a.Name.Local] = a.Value
			}
			if e.name != "title" || len(open) == 1 {
				all = append(all, e)
			}
			open = append(open, e)
		case xml.EndElement:
			e := open[len(open)-1]
			open = open[:len(open)-1]
			if e.name == "title" && len(open) > 1 {
				open[len(open)-1].title = e.text
			}
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].text += string(token)
			}
		default:
			t.Errorf("a %T", token)
		}
	}
}

// named are the elements of a name.
func named(all []*element, name string) []*element {
	var out []*element
	for _, e := range all {
		if e.name == name {
			out = append(out, e)
		}
	}
	return out
}

// says is the text that begins so, or did before it was shortened; nil if there is none.
func says(all []*element, begin string) *element {
	for _, e := range all {
		if e.name == "text" && (strings.HasPrefix(e.text, begin) || strings.HasPrefix(e.title, begin)) {
			return e
		}
	}
	return nil
}
