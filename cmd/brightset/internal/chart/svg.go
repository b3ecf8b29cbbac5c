// Package chart draws plain points as SVG: titled and described for those who can't see
// it, told apart by shape and dash as well as by colour, and with nothing in it that a
// strict content policy would refuse: no style, no script, no reference. It knows
// nothing of the trade; what stands beside a chart as a table is its caller's.
package chart

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Width of every chart in its own units; text is 15 high, so that on a narrow screen
// it can still be read.
const Width = 640

const textSize = 15

// The colours can be told apart by those who don't see red and green, and in grey by
// their lightness: after M. Okabe and K. Ito, Color Universal Design (from memory).
const (
	ink    = "#111111"
	faint  = "#bbbbbb"
	blue   = "#0b5394"
	orange = "#d55e00"
)

// svg is a drawing in the making.
type svg struct {
	b strings.Builder
	h float64
}

// head starts the drawing. id has to be the only one of its kind on the page.
func (s *svg) head(id, title, desc string, height float64) {
	s.h = height
	fmt.Fprintf(&s.b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %s" width="%d" height="%s" role="img" aria-labelledby="%s-t %s-d" font-family="sans-serif" font-size="%d" fill="%s">`,
		Width, num(height), Width, num(height), escape(id), escape(id), textSize, ink)
	fmt.Fprintf(&s.b, `<title id="%s-t">%s</title><desc id="%s-d">%s</desc>`, escape(id), escape(title), escape(id), escape(desc))
}

func (s *svg) end() string { return s.b.String() + "</svg>" }

func (s *svg) line(x1, y1, x2, y2 float64, colour string, width float64, dash string) {
	fmt.Fprintf(&s.b, `<line x1="%s" y1="%s" x2="%s" y2="%s" stroke="%s" stroke-width="%s"`, num(x1), num(y1), num(x2), num(y2), colour, num(width))
	if dash != "" {
		fmt.Fprintf(&s.b, ` stroke-dasharray="%s"`, dash)
	}
	s.b.WriteString("/>")
}

func (s *svg) rect(x, y, w, h float64, fill, stroke string) {
	fmt.Fprintf(&s.b, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s" stroke="%s"/>`, num(x), num(y), num(w), num(h), fill, stroke)
}

func (s *svg) circle(x, y, r float64, fill, stroke string) {
	fmt.Fprintf(&s.b, `<circle cx="%s" cy="%s" r="%s" fill="%s" stroke="%s" stroke-width="1.5"/>`, num(x), num(y), num(r), fill, stroke)
}

// text writes a label; anchor is start, middle or end.
func (s *svg) text(x, y float64, anchor, label string) {
	fmt.Fprintf(&s.b, `<text x="%s" y="%s" text-anchor="%s">%s</text>`, num(x), num(y), anchor, escape(label))
}

// num writes a coordinate to a tenth.
func num(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		v = 0
	}
	return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64)
}

// escape makes a text safe and plain: no control characters, nothing that turns the
// direction of what follows.
func escape(s string) string {
	s = strings.Map(func(r rune) rune {
		if r == '\t' || r == '\n' {
			return ' '
		}
		if unicode.IsControl(r) || r == '\uFFFE' || r == '\uFFFF' || (r >= 0x202a && r <= 0x202e) || (r >= 0x2066 && r <= 0x2069) || r == 0x200e || r == 0x200f {
			return -1
		}
		return r
	}, s)
	var b strings.Builder
	xml.EscapeText(&b, []byte(s))
	return b.String()
}

// wide is how wide a text is at most, in units.
func wide(s string) float64 {
	w := 0.0
	for _, r := range s {
		switch {
		case r > 0x2e7f:
			w += textSize
		case strings.ContainsRune("mwMW@%", r):
			w += 0.95 * textSize
		case strings.ContainsRune("iljtf.,:;'|!() ", r):
			w += 0.36 * textSize
		default:
			w += 0.62 * textSize
		}
	}
	return w
}

// short cuts a label to a width.
func short(s string, room float64) string {
	if wide(s) <= room {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && wide(string(r))+textSize > room {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + "…"
}

// Money writes cents as 1240.50.
func Money(c int64) string {
	sign := ""
	if c < 0 {
		sign, c = "-", -c
	}
	return fmt.Sprintf("%s%d.%02d", sign, c/100, c%100)
}

// round is money without cents, for an axis: 1240, 12 400, 1.2 million stays plain digits.
func round(c int64) string {
	s := strconv.FormatInt(c/100, 10)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "\u202f" + s[i:]
	}
	return s
}

// ticks are round values, 1, 2 or 5 times a power of ten apart, that cover low to high.
func ticks(low, high float64, most int) []float64 {
	if !(high > low) {
		high = low + 1
	}
	step := math.Pow(10, math.Floor(math.Log10((high-low)/float64(most))))
	for _, m := range []float64{1, 2, 5, 10} {
		if (high-low)/(step*m) <= float64(most) {
			step *= m
			break
		}
	}
	var out []float64
	for v := math.Floor(low/step) * step; v < high+step*0.999 && len(out) < 40; v += step {
		out = append(out, v)
	}
	return out
}
