package chart

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// place finds room for all names, or for numbers in place of all but the chief one. It
// says whether each flag has got one or the other.
func (d *frontier) place(numbers bool) bool {
	d.placer, d.names, d.key = placer{}, nil, nil
	if d.Beyond != "" && d.outOfReach() > 0 {
		d.key = append(d.key, keyRow{label: d.Beyond, hollow: true})
	}
	d.obstacles()
	d.placeLimit()
	all := true
	for _, g := range d.flags {
		if numbers && !g.chief || !d.placeName(g) {
			all = d.placeNumber(g) && all
		}
	}
	return all
}

// obstacles are what labels keep off: points, steps, flags.
func (d *frontier) obstacles() {
	f := d.frame
	d.placer.frame = box{f.x0 + 3, 2, d.width() - 3, f.y1 - 3}
	heading, _ := axisName(d.Up, d.Currency, d.y.unit, d.width()-8)
	d.placer.take(box{0, 0, 8 + wide(heading), 18 + fall + 2})
	for i, p := range d.points {
		x, y := d.at(p)
		d.placer.dot(disc{x, y, d.radius + 1})
		if i > 0 {
			px, py := d.at(d.points[i-1])
			d.placer.avoid(box{px - 1, math.Min(py, y), px + 1, math.Max(py, y)}, box{px, y - 2, x, y + 2})
		}
	}
	for _, g := range d.flags {
		x, y := d.at(g.Point)
		d.placer.dot(disc{x, y, g.radius() + 1})
	}
}

func (g *group) radius() float64 {
	if g.chief {
		return chiefRadius
	}
	return flagRadius
}

// placeLimit finds room for the limit's name along its line.
func (d *frontier) placeLimit() {
	l := d.Limit
	if l == nil {
		return
	}
	sum := " " + money(l.Cents)
	if d.off {
		d.key = append(d.key, keyRow{label: l.Label, tail: sum + ", off the scale"})
		return
	}
	y := d.y.place(float64(l.Cents))
	d.placer.avoid(box{d.frame.x0, y - 1, d.frame.x1, y + 1})
	text, whole, _ := labelled(l.Label, sum, 220)
	w := wide(text) + 2 // as of all names: it is set a unit off the edge of its box
	for _, top := range []float64{y - 5 - rise - fall, y + 5} {
		for i := range 9 {
			x := d.frame.x1 - w - float64(i)*(d.frame.x1-d.frame.x0-w-6)/8
			if b := (box{x, top, x + w, top + rise + fall}); d.placer.free(b) {
				d.placer.take(b.set())
				d.names = append(d.names, name{box: b, lines: []string{text}, whole: whole, x: d.frame.x1})
				return
			}
		}
	}
	d.key = append(d.key, keyRow{label: "dashes: " + l.Label, tail: sum})
}

// placeName finds room for the name and sum of a flag, on up to three lines, close by
// rather than far off; at last for as much of the name as says something.
func (d *frontier) placeName(g *group) bool {
	label, sum := strings.Join(g.labels, ", "), money(g.Cents)
	for _, far := range []float64{leash, longLeash} {
		for i, room := range []float64{260, 220, 180} {
			if lines, ok := wrapped(label, sum, room, i+1); ok && d.placeText(g, lines, "", far) {
				return true
			}
		}
	}
	for _, room := range []float64{260, 180, 130} {
		if text, whole, ok := labelled(label, " "+sum, room); ok && d.placeText(g, []string{text}, whole, longLeash) {
			return true
		}
	}
	return false
}

// placeText finds room for lines of text; whole is what was shortened to them, if it was.
func (d *frontier) placeText(g *group, lines []string, whole string, far float64) bool {
	x, y := d.at(g.Point)
	w := 0.0
	for _, l := range lines {
		w = math.Max(w, wide(l))
	}
	b, led, ok := d.placer.spot(x, y, g.radius(), w+2, rise+fall+lineGap*float64(len(lines)-1), far, false)
	if ok {
		d.names = append(d.names, name{box: b, lines: lines, whole: whole, x: x, y: y, led: led})
	}
	return ok
}

// placeNumber finds room for a number, and puts the names under the drawing: there they
// stand with what they cost, so that they can be told even where no number has room.
func (d *frontier) placeNumber(g *group) bool {
	n := 1
	for _, k := range d.key {
		n = max(n, k.number+1)
	}
	x, y := d.at(g.Point)
	text := strconv.Itoa(n)
	size := 2 * ringRadius(text)
	b, led, ok := d.placer.spot(x, y, g.radius(), size, size, longLeash, true)
	if ok {
		d.names = append(d.names, name{box: b, lines: []string{text}, x: x, y: y, led: led, number: true})
	} else {
		n = 0
	}
	for _, l := range g.labels {
		d.key = append(d.key, keyRow{number: n, label: l, tail: fmt.Sprintf(": %s, %s", number(g.X), money(g.Cents))})
	}
	return ok
}
