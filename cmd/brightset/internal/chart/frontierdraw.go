package chart

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// frontier is a Frontier while it is drawn.
type frontier struct {
	Frontier
	points []Point
	flags  []*group

	x, y   scale
	frame  box  // of the axes
	off    bool // the limit lies off the axis
	placer placer
	names  []name
	key    []keyRow
	radius float64
}

// name is a label that has found its place.
type name struct {
	box
	text   string
	whole  string  // before it was shortened
	x, y   float64 // what it names
	led    bool    // a line leads there
	number bool    // it is a number in a ring
}

// keyRow is a line under the drawing.
type keyRow struct {
	number int    // 0: none
	label  string // may be cut
	tail   string
	hollow bool // a hollow point stands before it
}

// How large the marks of points are: half their width.
const (
	chiefRadius = 8.0
	flagRadius  = 6.5
	inset       = 12.0 // of points from the axes
	plotTop     = 48.0 // room for what the sums are, and for names above the highest point
	keyGap      = 27.0 // from one row of the key to the next
)

func (d *frontier) draw() string {
	d.axes()
	if !d.place(false) { // too crowded: numbers take less room
		d.place(true)
	}
	height := d.frame.y1 + 50
	if len(d.key) > 0 {
		height += 10 + keyGap*float64(len(d.key))
	}
	s := begin(&d.Frame, height, d.describe())
	d.drawAxes(s)
	d.drawCurve(s)
	d.drawNames(s)
	d.drawKey(s)
	return s.end()
}

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

// axes lays the axes out: the one across begins where the sums beside the other end.
func (d *frontier) axes() {
	low, high := math.Inf(1), math.Inf(-1)
	least, most := int64(math.MaxInt64), int64(math.MinInt64)
	see := func(p Point) {
		low, high = math.Min(low, p.X), math.Max(high, p.X)
		least, most = min(least, p.Cents), max(most, p.Cents)
	}
	for _, p := range d.points {
		see(p)
	}
	for _, g := range d.flags {
		see(g.Point)
	}
	if l := d.Limit; l != nil {
		// Where it is far away the curve would be flat.
		from, to := float64(min(least, l.Cents)), float64(max(most, l.Cents))
		if d.off = to-from > 2.5*math.Max(float64(most)-float64(least), float64(most)/10); !d.off {
			least, most = min(least, l.Cents), max(most, l.Cents)
		}
	}
	w := d.width()
	d.y = moneyScale(least, most, 5)
	d.frame = box{math.Max(40, d.y.widest()+14), plotTop, w - 16, plotTop + math.Min(420, math.Max(220, 0.6*w))}
	d.y.from, d.y.to = d.frame.y1-inset, d.frame.y0
	for n := 7; n > 0; n-- { // as many numbers as stand apart
		d.x = numberScale(low, high, n)
		d.x.from, d.x.to = d.frame.x0+inset, d.frame.x1-inset
		if (d.x.widest()+14)*float64(len(d.x.ticks)-1) <= d.x.to-d.x.from {
			break
		}
	}
	d.radius = 4
	if len(d.points) > 40 {
		d.radius = 2.5
	}
}

func (d *frontier) at(p Point) (x, y float64) {
	return d.x.place(p.X), d.y.place(float64(p.Cents))
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
		where := "above"
		if _, y := d.at(Point{Cents: l.Cents}); y > d.frame.y0 {
			where = "below"
		}
		d.key = append(d.key, keyRow{label: l.Label, tail: sum + ", " + where + " all that is drawn"})
		return
	}
	y := d.y.place(float64(l.Cents))
	d.placer.avoid(box{d.frame.x0, y - 1, d.frame.x1, y + 1})
	text, whole, _ := labelled(l.Label, sum, 220)
	w := wide(text)
	for _, top := range []float64{y - 5 - rise - fall, y + 5} {
		for i := range 9 {
			x := d.frame.x1 - w - float64(i)*(d.frame.x1-d.frame.x0-w-6)/8
			if b := (box{x, top, x + w, top + rise + fall}); d.placer.free(b) {
				d.placer.take(b)
				d.names = append(d.names, name{box: b, text: text, whole: whole, x: d.frame.x1})
				return
			}
		}
	}
	d.key = append(d.key, keyRow{label: "dashes: " + l.Label, tail: sum})
}

// placeName finds room for the name and sum of a flag, or for as much of the name as
// says something.
func (d *frontier) placeName(g *group) bool {
	x, y := d.at(g.Point)
	label := strings.Join(g.labels, ", ")
	for _, room := range []float64{260, 180, 120} {
		text, whole, ok := labelled(label, " "+money(g.Cents), room)
		if !ok {
			continue
		}
		if b, led, ok := d.placer.spot(x, y, g.radius(), wide(text)+2, rise+fall, 120); ok {
			d.names = append(d.names, name{box: b, text: text, whole: whole, x: x, y: y, led: led})
			return true
		}
	}
	return false
}

// placeNumber finds room for a number, and puts the names under the drawing.
func (d *frontier) placeNumber(g *group) bool {
	n := 1
	for _, k := range d.key {
		n = max(n, k.number+1)
	}
	for _, l := range g.labels {
		d.key = append(d.key, keyRow{number: n, label: l, tail: fmt.Sprintf(": %s, %s", number(g.X), money(g.Cents))})
	}
	x, y := d.at(g.Point)
	text := strconv.Itoa(n)
	size := 2 * ringRadius(text)
	b, led, ok := d.placer.spot(x, y, g.radius(), size, size, 150)
	if ok {
		d.names = append(d.names, name{box: b, text: text, x: x, y: y, led: led, number: true})
	}
	return ok
}
