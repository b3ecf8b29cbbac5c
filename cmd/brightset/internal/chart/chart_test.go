package chart

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var hostile = []string{"<script>alert(1)</script>", `" onload="x`, "&amp;&#x0;", "\u202egnitsed", strings.Repeat("long name ", 30), "\x00\x1b[31m", "日本語のラベル", "", "a\nb"}

// sound fails where a drawing is not well formed, holds what a strict policy refuses, or
// draws outside its frame.
func sound(t *testing.T, name, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	height := 0.0
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v in\n%s", name, err, text)
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		switch e.Name.Local {
		case "svg", "title", "desc", "line", "rect", "circle", "text":
		default:
			t.Errorf("%s: an element <%s>", name, e.Name.Local)
		}
		at := map[string]string{}
		for _, a := range e.Attr {
			at[a.Name.Local] = a.Value
			if strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "style" || a.Name.Local == "href" {
				t.Errorf("%s: an attribute %s", name, a.Name.Local)
			}
		}
		if h, err := strconv.ParseFloat(at["height"], 64); err == nil && e.Name.Local == "svg" {
			height = h
		}
		for _, key := range []string{"y", "y1", "y2", "cy"} {
			if v, ok := at[key]; ok {
				if y, err := strconv.ParseFloat(v, 64); err != nil || y < 0 || y > height {
					t.Errorf("%s: %s=%s of a height of %v", name, key, v, height)
				}
			}
		}
		for _, key := range []string{"x", "x1", "x2", "cx"} {
			if v, ok := at[key]; ok {
				if x, err := strconv.ParseFloat(v, 64); err != nil || x < 0 || x > Width {
					t.Errorf("%s: %s=%s", name, key, v)
				}
			}
		}
	}
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || height <= 0 {
		t.Errorf("%s: no number in\n%s", name, text)
	}
}

func TestHostileLabels(t *testing.T) {
	for _, h := range hostile {
		sound(t, "bars", Bars("a", h, h, []Bar{{h, 100}, {h, -5}, {h, 0}}))
		sound(t, "dots", Dots("a", h, h, []int64{1, 2, 3}, []Mark{{h, 2}}, nil))
		sound(t, "curve", Curve("a", h, h, []Point{{50, 100}, {60, 200}}, []Flag{{Point{50, 100}, h, true}}))
	}
}

// TestRandom draws what may come: one point and many, equal values, huge sums.
func TestRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for i := range 300 {
		scale := []int64{1, 100, 100_000, 1 << 50}[r.IntN(4)]
		var points []Point
		var flags []Flag
		c, g := r.Int64N(scale+1), 100*r.Float64()
		for range 1 + r.IntN(150) {
			points = append(points, Point{g, c})
			c, g = c+r.Int64N(scale+1)/160, g+(100-g)*r.Float64()/20
			if r.IntN(12) == 0 {
				flags = append(flags, Flag{points[len(points)-1], fmt.Sprintf("target %d", len(flags)), r.IntN(4) == 0})
			}
		}
		text := Curve("c", "t", "USD", points, flags)
		sound(t, fmt.Sprint("curve ", i), text)
		noOverlap(t, text)
		var sums []int64
		for range 1 + r.IntN(40) {
			sums = append(sums, r.Int64N(scale+1))
		}
		limit := r.Int64N(scale + 1)
		sound(t, fmt.Sprint("dots ", i), Dots("d", "t", "USD", sums, []Mark{{"budget", limit}, {"planned", r.Int64N(scale + 1)}}, &limit))
	}
}

var label = regexp.MustCompile(`<text x="([0-9.]+)" y="([0-9.]+)" text-anchor="(\w+)">([^<]*)</text>`)

// noOverlap compares the labels of a curve with each other, two by two.
func noOverlap(t *testing.T, text string) {
	t.Helper()
	var boxes [][4]float64
	var names []string
	for _, m := range label.FindAllStringSubmatch(text, -1) {
		x, _ := strconv.ParseFloat(m[1], 64)
		y, _ := strconv.ParseFloat(m[2], 64)
		w := 7.5 * float64(len([]rune(m[4]))) * 0.9 // narrower than the placing reckons with
		if m[4] == "" {
			continue
		}
		switch m[3] {
		case "end":
			x -= w
		case "middle":
			x -= w / 2
		}
		boxes, names = append(boxes, [4]float64{x, y - 11, x + w, y + 2}), append(names, m[4])
	}
	for i := range boxes {
		for k := range i {
			a, b := boxes[i], boxes[k]
			if a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3] && strings.Contains(names[i], "target") && strings.Contains(names[k], "target") {
				t.Errorf("%q over %q", names[i], names[k])
			}
		}
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{0, 100, "[0 20 40 60 80 100]"}, {85.7, 94.5, "[84 86 88 90 92 94 96]"}, {1378, 2200, "[1200 1400 1600 1800 2000 2200]"}, {5, 5, "[5 5.2 5.4 5.6 5.8 6]"},
	} {
		if got := fmt.Sprintf("%.5g", ticks(c.low, c.high, 6)); got != c.want {
			t.Errorf("%v to %v: %s, want %s", c.low, c.high, got, c.want)
		}
	}
}

func TestMoney(t *testing.T) {
	for v, want := range map[int64]string{0: "0.00", 5: "0.05", -1400: "-14.00", 123456: "1234.56"} {
		if got := Money(v); got != want {
			t.Errorf("%d: %s", v, got)
		}
	}
	if got := round(1234567_00); got != "1\u202f234\u202f567" {
		t.Error(got)
	}
}
