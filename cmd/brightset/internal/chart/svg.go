package chart

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Letters, in units.
const (
	textSize = 16.0
	rise     = 14.0 // from the foot of a letter to the top of its box
	fall     = 4.0  // from the foot of a letter to the bottom of its box
	lineGap  = 19.0 // from one line of a text to the next
	rowGap   = 22.0 // from one row of text to the next
)

// The colours can be told apart by those who don't see red and green, and in grey by
// their lightness: after M. Okabe and K. Ito, Color Universal Design (from memory).
// Letters are always ink.
const (
	ink    = "#111111"
	faint  = "#d4d4d4"
	paper  = "#ffffff"
	blue   = "#0b5394"
	orange = "#e69f00"
)

// svg is a drawing in the making.
type svg struct {
	b      strings.Builder
	width  float64
	height float64
}

// begin starts a drawing of a height. The text goes to whoever does not see it.
func begin(f *Frame, height float64, desc string) *svg {
	s := &svg{width: f.width(), height: math.Ceil(height)}
	id := ident(f.ID)
	w, h := num(s.width), num(s.height)
	// Given a full width and its own height, it shrinks to fit and never grows.
	fmt.Fprintf(&s.b,
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" width="100%%" height="%s" `+
			`preserveAspectRatio="xMinYMin meet" role="img" aria-labelledby="%s-title %s-desc" `+
			`font-family="sans-serif" font-size="%s" direction="ltr" fill="%s">`,
		w, h, h, id, id, num(textSize), ink)
	if f.Note != "" {
		desc = f.Note + " " + desc
	}
	fmt.Fprintf(&s.b, "\n<title id=\"%s-title\">%s</title>\n<desc id=\"%s-desc\">%s</desc>\n", id, escape(plain(f.Title)),
		id, escape(plain(desc)))
	s.rect(box{0, 0, s.width, s.height}, paper, "", "")
	return s
}

func (s *svg) end() string { return s.b.String() + "</svg>" }

// line draws a straight line; dash may be empty.
func (s *svg) line(x1, y1, x2, y2 float64, colour string, width float64, dash string) {
	fmt.Fprintf(&s.b, `<line x1="%s" y1="%s" x2="%s" y2="%s" stroke="%s" stroke-width="%s"`, num(x1), num(y1), num(x2),
		num(y2), colour, num(width))
	if dash != "" {
		fmt.Fprintf(&s.b, ` stroke-dasharray="%s"`, dash)
	}
	s.b.WriteString("/>\n")
}

// rect draws a box; stroke and dash may be empty.
func (s *svg) rect(b box, fill, stroke, dash string) {
	fmt.Fprintf(&s.b, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s"`, num(b.x0), num(b.y0), num(b.x1-b.x0),
		num(b.y1-b.y0), fill)
	if stroke != "" {
		fmt.Fprintf(&s.b, ` stroke="%s" stroke-width="1.5"`, stroke)
	}
	if dash != "" {
		fmt.Fprintf(&s.b, ` stroke-dasharray="%s"`, dash)
	}
	s.b.WriteString("/>\n")
}

// circle draws a disc; stroke may be empty.
func (s *svg) circle(x, y, r float64, fill, stroke string) {
	fmt.Fprintf(&s.b, `<circle cx="%s" cy="%s" r="%s" fill="%s"`, num(x), num(y), num(r), fill)
	if stroke != "" {
		fmt.Fprintf(&s.b, ` stroke="%s" stroke-width="1.5"`, stroke)
	}
	s.b.WriteString("/>\n")
}

// path draws lines along d, unfilled.
func (s *svg) path(d, colour string, width float64) {
	fmt.Fprintf(&s.b, "<path d=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\"/>\n", d, colour, num(width))
}

// shape draws a closed figure through the points x, y, x, y.
func (s *svg) shape(fill, stroke string, at ...float64) {
	s.b.WriteString(`<polygon points="`)
	for i, v := range at {
		if i > 0 {
			s.b.WriteString(" ")
		}
		s.b.WriteString(num(v))
	}
	fmt.Fprintf(&s.b, "\" fill=\"%s\" stroke=\"%s\" stroke-width=\"1.5\" stroke-linejoin=\"round\"/>\n", fill, stroke)
}

// Where a text is held.
const (
	start  = "start"
	middle = "middle"
	end    = "end"
)

// text writes a label that stands on y. Where it is wider than room it is shortened.
func (s *svg) text(x, y float64, anchor, label string, room float64) {
	whole := plain(label)
	s.words(x, y, anchor, "", isolated(shorten(whole, room)), isolated(whole))
}

// bold writes a label as text does, in heavy letters.
func (s *svg) bold(x, y float64, anchor, label string, room float64) {
	whole := plain(label)
	s.words(x, y, anchor, ` font-weight="bold"`, isolated(shorten(whole, room/boldWider)), isolated(whole))
}

// words writes a text; the whole, where it is another, can be read where the pointer rests.
func (s *svg) words(x, y float64, anchor, more, text, whole string) {
	if text == "" {
		return
	}
	fmt.Fprintf(&s.b, `<text x="%s" y="%s"`, num(x), num(y))
	if anchor != start {
		fmt.Fprintf(&s.b, ` text-anchor="%s"`, anchor)
	}
	s.b.WriteString(more + ">")
	if text != whole {
		s.b.WriteString("<title>" + escape(whole) + "</title>")
	}
	s.b.WriteString(escape(text) + "</text>\n")
}

// num writes a coordinate to a tenth.
func num(v float64) string {
	if math.IsNaN(v) || math.Abs(v) > 1e7 { // never: whatever is drawn is within the frame
		v = 0
	}
	return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64)
}

// pathTo writes the points x, y, x, y as the lines of a path.
func pathTo(at ...float64) string {
	var b strings.Builder
	for i := 0; i+1 < len(at); i += 2 {
		step := "L"
		if i == 0 {
			step = "M"
		}
		b.WriteString(step + num(at[i]) + " " + num(at[i+1]))
	}
	return b.String()
}
