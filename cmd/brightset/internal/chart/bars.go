package chart

import (
	"fmt"
	"math"
	"strings"
)

// Bar is one part of a sum; below zero it is taken off.
type Bar struct {
	Label string
	Cents int64
}

// Bars draws what a sum is made of, a bar for each part in the order given: filled ones
// add to it, hatched ones are taken off.
type Bars struct {
	Frame
	Currency string
	Bars     []Bar
	Total    string // what the sum of all is called, such as "in all"; "": not shown
}

// Draw makes the drawing. Its table has a row for every bar, and one for the sum if it is
// shown.
func (b Bars) Draw() Drawing {
	what := b.Currency
	if what == "" {
		what = "sum"
	}
	var t Table
	t.words("what")
	t.sums(what)
	for _, r := range b.rows() {
		t.row(r.Label, Money(r.Cents))
	}
	if len(b.Bars) == 0 {
		return Drawing{Table: t}
	}
	return Drawing{SVG: b.draw(), Table: t}
}

// total is the sum of all bars.
func (b *Bars) total() int64 {
	var all []int64
	for _, r := range b.Bars {
		all = append(all, r.Cents)
	}
	return sumOf(all)
}

// rows are the bars and their sum.
func (b *Bars) rows() []Bar {
	if b.Total == "" {
		return b.Bars
	}
	return append(append([]Bar{}, b.Bars...), Bar{b.Total, b.total()})
}

func (b *Bars) describe() string {
	const most = 15
	var text strings.Builder
	if b.Currency != "" {
		fmt.Fprintf(&text, "In %s. ", b.Currency)
	}
	for i, r := range b.Bars {
		if i == most {
			fmt.Fprintf(&text, "And %d more. ", len(b.Bars)-most)
			break
		}
		fmt.Fprintf(&text, "%s: %s. ", shorten(plain(r.Label), 600), Money(r.Cents))
	}
	if b.Total != "" {
		fmt.Fprintf(&text, "%s: %s.", b.Total, Money(b.total()))
	}
	return text.String()
}

// A bar lies under its name, which has the whole width that way.
const (
	barRow    = 42.0
	barHeight = 12.0
)

func (b *Bars) draw() string {
	height := barRow*float64(len(b.Bars)) + 8
	if b.Total != "" {
		height += 34
	}
	s := begin(&b.Frame, height, b.describe())
	least, most := 0.0, 0.0
	for _, r := range b.Bars {
		least, most = math.Min(least, float64(r.Cents)), math.Max(most, float64(r.Cents))
	}
	axis := scale{ticks: []tick{{at: least}, {at: most}}, from: 4, to: s.width - 4}
	if least == most {
		axis.ticks[1].at = 1
	}
	zero := axis.place(0)
	for i, r := range b.Bars {
		y := barRow * float64(i)
		b.label(s, s.text, r, y+20)
		bar := box{zero, y + 26, axis.place(float64(r.Cents)), y + 26 + barHeight}
		switch {
		case r.Cents > 0:
			bar.x1 = math.Max(bar.x1, zero+1)
			s.rect(bar, blue, "", "")
		case r.Cents < 0:
			bar.x0, bar.x1 = math.Min(bar.x1, zero-1), zero
			hatched(s, bar)
		}
		s.line(zero, bar.y0-1, zero, bar.y1+3, ink, 1.5, "")
	}
	if b.Total != "" {
		y := barRow*float64(len(b.Bars)) + 8
		s.line(4, y, s.width-4, y, ink, 1.2, "")
		b.label(s, s.bold, Bar{b.Total, b.total()}, y+22)
	}
	return s.end()
}

// label writes the name of a bar to the left and its sum to the right.
func (b *Bars) label(s *svg, write func(x, y float64, anchor, label string, room float64), r Bar, y float64) {
	sum := money(r.Cents)
	write(s.width-4, y, end, sum, math.Inf(1))
	write(4, y, start, r.Label, s.width-8-16-boldWider*wide(sum))
}

// hatched draws a box with slanting lines in it.
func hatched(s *svg, b box) {
	s.rect(b, paper, ink, "")
	const gap = 6.0
	h := b.y1 - b.y0
	var d strings.Builder
	for x := b.x0 - h + gap; x < b.x1; x += gap {
		// From the foot of the box up to the right, as far as it reaches.
		from, to := math.Max(x, b.x0), math.Min(x+h, b.x1)
		if to > from {
			d.WriteString(pathTo(from, b.y1-(from-x), to, b.y1-(to-x)))
		}
	}
	if d.Len() > 0 {
		s.path(d.String(), ink, 1)
	}
}
