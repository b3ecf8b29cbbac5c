package chart

import (
	"math"
	"strconv"
)

func (d *frontier) drawAxes(s *svg) {
	f := d.frame
	text, whole := axisName(d.Up, d.Currency, d.y.unit, s.width-8)
	s.words(4, 18, start, "", text, whole)
	for _, t := range d.y.ticks {
		y := d.y.place(t.at)
		s.line(f.x0, y, f.x1, y, faint, 1, "")
		s.text(f.x0-8, y+5.5, end, t.label, f.x0)
	}
	d.x.draw(s, f.y1)
	s.line(f.x0, f.y1, f.x1, f.y1, ink, 1.2, "")
	s.line(f.x0, f.y0, f.x0, f.y1, ink, 1.2, "")
	s.text(f.x1, f.y1+43, end, d.Across, s.width-20)
}

// drawCurve draws the limit, the steps and the points.
func (d *frontier) drawCurve(s *svg) {
	f := d.frame
	if d.Limit != nil && !d.off {
		y := d.y.place(float64(d.Limit.Cents))
		s.line(f.x0, y, f.x1, y, ink, 1.5, "8 5")
	}
	var steps []float64
	for i, p := range d.points {
		x, y := d.at(p)
		if i > 0 {
			px, _ := d.at(d.points[i-1])
			steps = append(steps, px, y)
		}
		steps = append(steps, x, y)
	}
	if len(d.points) > 1 {
		s.path(pathTo(steps...), blue, 1.5)
	}
	for _, p := range d.points {
		x, y := d.at(p)
		if d.beyond(p) {
			s.circle(x, y, d.radius-0.5, paper, blue)
		} else {
			s.circle(x, y, d.radius, blue, "")
		}
	}
}

// drawNames draws the flags and what they are called.
func (d *frontier) drawNames(s *svg) {
	for _, n := range d.names {
		if n.led {
			x, y, _ := n.target(n.x, n.y, n.number)
			s.line(n.x, n.y, x, y, ink, 1, "")
		}
	}
	for i := range d.flags { // the chief one last, on top
		g := d.flags[len(d.flags)-1-i]
		x, y := d.at(g.Point)
		if r := g.radius(); g.chief {
			s.shape(orange, ink, x, y-r, x+r, y, x, y+r, x-r, y)
		} else {
			s.circle(x, y, r, paper, ink)
			s.circle(x, y, 2, ink, "")
		}
	}
	for _, n := range d.names {
		if n.number {
			ring(s, (n.x0+n.x1)/2, (n.y0+n.y1)/2, n.lines[0])
		} else {
			n.write(s)
		}
	}
}

// write sets the text to the side of its box that is nearer to what it names: letters
// may be narrower than reckoned with.
func (n *name) write(s *svg) {
	x, anchor := n.x0+1, start
	switch {
	case n.x >= n.x1:
		x, anchor = n.x1-1, end
	case n.x > n.x0:
		x, anchor = (n.x0+n.x1)/2, middle
	}
	for i, line := range n.lines {
		whole := n.whole
		if whole == "" {
			whole = line
		}
		s.words(x, n.y0+rise+lineGap*float64(i), anchor, "", line, whole)
	}
}

// ringRadius is half of what a number in a ring takes up.
func ringRadius(n string) float64 { return math.Max(12, wide(n)/2+4) }

// ring draws a number in a circle.
func ring(s *svg, x, y float64, n string) {
	s.circle(x, y, ringRadius(n)-1, paper, ink)
	s.text(x, y+5.5, middle, n, math.Inf(1))
}

// drawKey writes the names for which there was no room.
func (d *frontier) drawKey(s *svg) {
	for i, k := range d.key {
		x, y := 4.0, d.frame.y1+72+keyGap*float64(i)
		if k.hollow {
			s.circle(x+5, y-5.5, 3.5, paper, blue)
			x += 18
		}
		if k.number > 0 {
			n := strconv.Itoa(k.number)
			ring(s, x+ringRadius(n), y-5.5, n)
			x += 2*ringRadius(n) + 8
		}
		text, whole, _ := labelled(k.label, k.tail, s.width-x-4)
		s.words(x, y, start, "", text, whole)
	}
}
