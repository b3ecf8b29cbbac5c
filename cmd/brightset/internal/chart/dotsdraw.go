package chart

import (
	"fmt"
	"math"
)

func (d *dots) draw() string {
	d.layOut()
	tallest := 0
	for _, s := range d.stacks {
		tallest = max(tallest, s.n)
	}
	d.placeMarks()
	top := 4.0
	if d.Limit != nil {
		top += rowGap
	}
	dotsTop := top + rowGap*float64(len(d.marks)) + 10
	base := dotsTop + math.Max(60, float64(tallest)*2*d.radius+4)
	s := begin(&d.Frame, base+52, d.describe())
	if d.Limit != nil {
		d.drawCount(s)
	}
	d.drawMarks(s, top, base)
	for _, k := range d.stacks {
		for i := range k.n {
			y := base - d.radius*float64(2*i+1) - 1
			if d.Limit != nil && d.Sums[k.from+i] > d.Limit.Cents {
				crossed(s, k.x, y, d.radius-0.5)
			} else {
				s.circle(k.x, y, d.radius-0.5, blue, "")
			}
		}
	}
	s.line(4, base, s.width-4, base, ink, 1.2, "")
	d.axis.draw(s, base)
	text, whole := axisName(d.Across, d.Currency, d.axis.unit, s.width-8)
	s.words(s.width-4, base+43, end, "", text, whole)
	return s.end()
}

// crossed is a dot beyond the limit.
func crossed(s *svg, x, y, r float64) {
	s.circle(x, y, r-0.75, paper, ink)
	c := (r - 0.75) * math.Sqrt2 / 2
	s.path(pathTo(x-c, y-c, x+c, y+c)+pathTo(x-c, y+c, x+c, y-c), ink, 1.2)
}

// drawCount writes how many dots lie within the limit, and how many above.
func (d *dots) drawCount(s *svg) {
	const y, r = 17.0, 7.0
	above := d.above()
	s.circle(4+r, y-5.5, r, blue, "")
	beyond := fmt.Sprintf("%d above", above)
	const gap = 22
	room := s.width - 4*r - 2*8 - gap - wide(beyond) - 8
	within := plain(fmt.Sprintf("%d of %d within ", len(d.Sums)-above, len(d.Sums)) + d.Limit.Label)
	s.text(4+2*r+6, y, start, within, room)
	x := 4 + 2*r + 6 + wide(shorten(within, room)) + gap
	crossed(s, x+r, y-5.5, r+0.75)
	s.text(x+2*r+6, y, start, beyond, math.Inf(1))
}

// dashes tell the lines apart; the first is the limit's, if there is one.
var dashes = [...]string{"8 5", "2 4", "12 4 2 4", "5 2", "1 6"}
