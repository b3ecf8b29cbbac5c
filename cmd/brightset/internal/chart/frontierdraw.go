package chart

import "math"

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
	lines  []string
	whole  string  // before it was shortened; "" where it was not
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
