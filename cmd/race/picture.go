package main

import (
	"fmt"
	"html"
	"io"
	"math"
	"strconv"
)

// picture is four panels, two by two, drawn in black and grey only.
type picture struct {
	title, note string
	panels      []panel
}

// panel is a curve or several on two logarithmic axes.
type panel struct {
	x, y   string
	curves []curve
}

// curve is a line of points; dashes tell the curves of a panel apart.
type curve struct {
	name   string
	points []point
}

var dashes = []string{"", "7 3", "2 3", "9 3 2 3", "1 5"}

type point struct {
	x, y float64 // more than 0
	full bool    // drawn filled
}

const (
	panelWidth, panelHeight = 340.0, 240.0
	marginLeft, marginTop   = 70.0, 66.0
	gapX, gapY              = 90.0, 80.0
)

func (p *picture) write(out io.Writer) {
	width := marginLeft + 2*panelWidth + gapX + 30
	height := marginTop + 2*panelHeight + gapY + 90
	fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %.0f" width="%.0f" height="%.0f" `+
		`font-family="sans-serif" font-size="12" role="img">`+"\n", width, height, width, height)
	fmt.Fprintf(out, "<title>%s</title>\n<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/>\n",
		html.EscapeString(p.title))
	text(out, marginLeft, 26, "start", 16, p.title)
	for i := range p.panels {
		left := marginLeft + float64(i%2)*(panelWidth+gapX)
		top := marginTop + float64(i/2)*(panelHeight+gapY)
		p.panels[i].write(out, left, top)
	}
	p.panels[0].key(out, height-36)
	text(out, marginLeft, height-14, "start", 12, p.note)
	fmt.Fprintln(out, "</svg>")
}

// text writes one line of words; anchor is start, middle or end.
func text(out io.Writer, x, y float64, anchor string, size int, words string) {
	fmt.Fprintf(out, "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" font-size=\"%d\" fill=\"#111\">%s</text>\n", x, y,
		anchor, size, html.EscapeString(words))
}

func line(out io.Writer, x1, y1, x2, y2 float64, colour string) {
	fmt.Fprintf(out, "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"%s\"/>\n", x1, y1, x2, y2, colour)
}

// scale is a logarithmic axis from lo to hi over length, starting at from.
type scale struct{ lo, hi, from, length float64 }

func (s scale) at(v float64) float64 {
	return s.from + s.length*(math.Log10(v)-math.Log10(s.lo))/(math.Log10(s.hi)-math.Log10(s.lo))
}

// decades gives the whole powers of ten that enclose all values.
func decades(values []float64) (lo, hi float64) {
	lo, hi = math.Inf(1), 0
	for _, v := range values {
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	lo, hi = math.Pow(10, math.Floor(math.Log10(lo))), math.Pow(10, math.Ceil(math.Log10(hi)))
	if hi <= lo {
		hi = lo * 10
	}
	return lo, hi
}

func (n *panel) write(out io.Writer, left, top float64) {
	var xs, ys []float64
	for _, c := range n.curves {
		for _, p := range c.points {
			xs, ys = append(xs, p.x), append(ys, p.y)
		}
	}
	lo, hi := decades(xs)
	x := scale{lo, hi, left, panelWidth}
	lo, hi = decades(ys)
	y := scale{lo, hi, top + panelHeight, -panelHeight}
	fmt.Fprintf(out, "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"none\" stroke=\"#555\"/>\n",
		left, top, panelWidth, panelHeight)
	for v := x.lo; v <= x.hi*1.001; v *= 10 {
		line(out, x.at(v), top, x.at(v), top+panelHeight, "#ccc")
		text(out, x.at(v), top+panelHeight+17, "middle", 12, number(v))
	}
	for v := y.lo; v <= y.hi*1.001; v *= 10 {
		line(out, left, y.at(v), left+panelWidth, y.at(v), "#ccc")
		text(out, left-7, y.at(v)+4, "end", 12, number(v))
	}
	text(out, left+panelWidth/2, top+panelHeight+36, "middle", 13, n.x)
	text(out, left, top-8, "start", 13, n.y)
	for i := range n.curves {
		n.curves[i].write(out, x, y, dashes[i%len(dashes)])
	}
}

// key says which dashes are whose: the panels have the same curves.
func (n *panel) key(out io.Writer, top float64) {
	for i := range n.curves {
		left := marginLeft + 130*float64(i)
		fmt.Fprintf(out, "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#111\" stroke-width=\"1.5\" "+
			"stroke-dasharray=\"%s\"/>\n", left, top-4, left+36, top-4, dashes[i%len(dashes)])
		text(out, left+42, top, "start", 12, n.curves[i].name)
	}
}

func (c *curve) write(out io.Writer, x, y scale, dash string) {
	fmt.Fprintf(out, `<polyline fill="none" stroke="#111" stroke-width="1.5" stroke-dasharray="%s" points="`, dash)
	for _, p := range c.points {
		fmt.Fprintf(out, "%.1f,%.1f ", x.at(p.x), y.at(p.y))
	}
	fmt.Fprintln(out, `"/>`)
	for _, p := range c.points {
		fill := "#fff"
		if p.full {
			fill = "#111"
		}
		fmt.Fprintf(out, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"4\" fill=\"%s\" stroke=\"#111\"><title>%s, %s: "+
			"%s</title></circle>\n", x.at(p.x), y.at(p.y), fill, html.EscapeString(c.name), number(p.x), number(p.y))
	}
}

// number has three figures that count and no exponent.
func number(v float64) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
