package chart

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// What a drawing may be made of.
var allowed = map[string][]string{
	"svg": {"xmlns", "viewBox", "width", "height", "preserveAspectRatio", "role", "aria-labelledby", "font-family",
		"font-size", "direction", "fill"},
	"title":   {"id"},
	"desc":    {"id"},
	"line":    {"x1", "y1", "x2", "y2", "stroke", "stroke-width", "stroke-dasharray"},
	"rect":    {"x", "y", "width", "height", "fill", "stroke", "stroke-width"},
	"circle":  {"cx", "cy", "r", "fill", "stroke", "stroke-width"},
	"path":    {"d", "fill", "stroke", "stroke-width"},
	"polygon": {"points", "fill", "stroke", "stroke-width", "stroke-linejoin"},
	"text":    {"x", "y", "text-anchor", "font-weight"},
}

var (
	coordinate = regexp.MustCompile(`^-?[0-9]+(\.[0-9])?$`)
	inPath     = regexp.MustCompile(`-?[0-9.]+`)
	colour     = regexp.MustCompile(`^(#[0-9a-f]{6}|none)$`)
)

// checked fails where a drawing is not as every drawing has to be, and gives its elements.
func checked(t testing.TB, d Drawing) []*element {
	t.Helper()
	tableSound(t, &d.Table)
	if d.SVG == "" {
		return nil
	}
	all := read(t, d.SVG)
	frame := headSound(t, all)
	var texts []*element
	var boxes []box
	for _, e := range all {
		inkSound(t, e, frame)
		if e.name != "text" {
			continue
		}
		b := e.box(t)
		if !b.within(frame) {
			t.Errorf("%q at %v lies outside %v", e.text, b, frame)
		}
		for i, other := range boxes {
			if b.meets(other) {
				t.Errorf("%q over %q", e.text, texts[i].text)
			}
		}
		texts, boxes = append(texts, e), append(boxes, b)
		if strings.Contains(e.text, "…") != (e.title != "") {
			t.Errorf("%q is short for %q", e.text, e.title)
		}
	}
	if t.Failed() {
		t.Log(d.SVG)
	}
	return all
}

// headSound looks at what a drawing is called and how large it is.
func headSound(t testing.TB, all []*element) box {
	t.Helper()
	root, title, desc := all[0], all[1], all[2]
	w, h := 0.0, 0.0
	n, err := fmt.Sscanf(root.at["viewBox"], "0 0 %g %g", &w, &h)
	if n != 2 || err != nil || w < 320 || w > 1600 || h < 40 {
		t.Errorf("viewBox %q", root.at["viewBox"])
	}
	if root.at["width"] != "100%" || root.num(t, "height") != h || root.at["role"] != "img" {
		t.Errorf("%v", root.at)
	}
	if root.at["aria-labelledby"] != title.at["id"]+" "+desc.at["id"] || title.name != "title" || desc.name != "desc" ||
		!strings.HasSuffix(title.at["id"], "-title") || !strings.HasSuffix(desc.at["id"], "-desc") {
		t.Errorf("called by %q: %v %v", root.at["aria-labelledby"], title, desc)
	}
	for _, e := range all[3:] {
		if e.at["id"] != "" {
			t.Errorf("another id %q", e.at["id"])
		}
	}
	if size := root.num(t, "font-size"); w == 480 && size*340/w < 11 {
		t.Errorf("letters of %v are too small on a narrow screen", size)
	}
	return box{0, 0, w, h}
}

// inkSound looks at the numbers and colours of an element.
func inkSound(t testing.TB, e *element, frame box) {
	t.Helper()
	inside := func(v, most float64, what string) {
		if math.IsNaN(v) || v < -0.05 || v > most+0.05 {
			t.Errorf("<%s> %s: %v of %v", e.name, what, v, most)
		}
	}
	for key, v := range e.at {
		switch key {
		case "x", "x1", "x2", "cx":
			inside(e.num(t, key), frame.x1, key)
		case "y", "y1", "y2", "cy":
			inside(e.num(t, key), frame.y1, key)
		case "fill", "stroke":
			if !colour.MatchString(v) {
				t.Errorf("<%s> %s=%q", e.name, key, v)
			}
			continue
		case "points", "d":
			for i, n := range inPath.FindAllString(v, -1) {
				p, _ := strconv.ParseFloat(n, 64)
				inside(p, []float64{frame.x1, frame.y1}[i%2], key)
			}
			continue
		case "r", "stroke-width":
		case "width", "height":
			if e.name == "svg" {
				continue
			}
		default:
			continue
		}
		if !coordinate.MatchString(v) {
			t.Errorf("<%s> %s=%q", e.name, key, v)
		}
	}
	if e.name == "rect" {
		inside(e.num(t, "x")+e.num(t, "width"), frame.x1, "right")
		inside(e.num(t, "y")+e.num(t, "height"), frame.y1, "bottom")
		if e.num(t, "width") < 0 || e.num(t, "height") < 0 {
			t.Errorf("a box turned inside out: %v", e.at)
		}
	}
}

func tableSound(t testing.TB, table *Table) {
	t.Helper()
	if len(table.Heads) < 2 || len(table.Right) != len(table.Heads) {
		t.Errorf("heads %q %v", table.Heads, table.Right)
	}
	for _, row := range table.Rows {
		if len(row) != len(table.Heads) {
			t.Errorf("%q under %q", row, table.Heads)
		}
		for _, cell := range row {
			if cell != plain(cell) {
				t.Errorf("a cell %q", cell)
			}
		}
	}
}
